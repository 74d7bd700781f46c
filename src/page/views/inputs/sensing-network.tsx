import type { ComponentChildren } from 'preact';
import type { InputRow } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';

/** Where a part is drawn: its middle, which way it lies, and where its words go. */
interface Place {
	readonly id: string;
	readonly x: number;
	readonly y: number;
	readonly lies: 'across' | 'down';
	readonly kind: 'resistor' | 'capacitor';
}

const sense: readonly Place[] = [
	{ id: 'sensing.divider.top', x: 104, y: 40, lies: 'across', kind: 'resistor' },
	{ id: 'sensing.divider.bottom', x: 158, y: 76, lies: 'down', kind: 'resistor' },
	{ id: 'sensing.divider.capacitor', x: 276, y: 76, lies: 'down', kind: 'capacitor' },
];
const halfBus: readonly Place[] = [
	{ id: 'sensing.halfBus.top', x: 104, y: 164, lies: 'across', kind: 'resistor' },
	{ id: 'sensing.halfBus.bottom', x: 158, y: 200, lies: 'down', kind: 'resistor' },
	{ id: 'sensing.halfBus.capacitor', x: 276, y: 200, lies: 'down', kind: 'capacitor' },
];
const virtualNeutral: readonly Place[] = [
	{ id: 'sensing.virtualNeutral.star', x: 104, y: 288, lies: 'across', kind: 'resistor' },
	{ id: 'sensing.virtualNeutral.ground', x: 158, y: 336, lies: 'down', kind: 'resistor' },
	{ id: 'sensing.virtualNeutral.capacitor', x: 276, y: 336, lies: 'down', kind: 'capacitor' },
];

/**
 * The sensing network of one phase with both thresholds, its parts with the
 * values they have now; the part being edited stands out. Symbols of IEC 60617.
 */
export function SensingNetwork({ model }: { model: PageModel }) {
	const { inputs } = model;
	const rows = new Map(inputs.rows.value.map((row) => [row.key, row]));
	const words = [...sense, ...halfBus, ...virtualNeutral]
		.map(({ id }) => rows.get(id))
		.map((row) => row && `${row.record.name} ${textOf(row, 'value')}`)
		.join(', ');
	const part = (place: Place) => {
		const row = rows.get(place.id);
		return row && <Part key={place.id} place={place} row={row} isEdited={inputs.focused.value === place.id} />;
	};
	return (
		<svg class="network" viewBox="0 -14 456 402" role="img" aria-label={`The sensing network of one phase: ${words}.`}>
			<g class="wire">
				<path d="M40 40H86M122 40H362V80H384M158 40V58M158 94V108M276 40V68M276 84V108" />
				<Ground x={158} y={108} />
				<Ground x={276} y={108} />
			</g>
			<g class="wire halfBus">
				<path d="M40 164H86M122 164H350M158 164V182M158 218V232M276 164V192M276 208V232" />
				<Ground x={158} y={232} />
				<Ground x={276} y={232} />
				<circle class="contact" cx="354" cy="164" r="3.5" />
			</g>
			<g class="wire virtualNeutral">
				<path d="M40 268H86M122 268H140V308H122M40 288H86M40 308H86M122 288H378V168M158 288V318M158 354V368M276 288V328M276 344V368" />
				<Ground x={158} y={368} />
				<Ground x={276} y={368} />
				<circle class="contact" cx="378" cy="164" r="3.5" />
			</g>
			<g class="dots">
				{[
					[158, 40],
					[276, 40],
					[158, 164],
					[276, 164],
					[140, 288],
					[158, 288],
					[276, 288],
				].map(([cx, cy]) => (
					<circle key={`${cx} ${cy}`} cx={cx} cy={cy} r="2.6" />
				))}
			</g>
			<g class="terminals">
				<Terminal x={36} y={40} words="a" />
				<Terminal x={36} y={164} words="V" />
				<Terminal x={36} y={268} words="a" />
				<Terminal x={36} y={288} words="b" />
				<Terminal x={36} y={308} words="c" />
			</g>
			<g class="comparator">
				<path class="body" d="M384 68V116L428 92Z" />
				<path d="M384 104H366V142L355 160M428 92H444" />
				<circle cx="366" cy="142" r="2.6" />
				<text x="389" y="84">
					+
				</text>
				<text x="389" y="108">
					−
				</text>
			</g>
			<text class="title" x="24" y="-4">
				Sense node, one of three phases
			</text>
			<text class="title halfBus" x="24" y="124">
				Half-bus threshold
			</text>
			<text class="title virtualNeutral" x="24" y="228">
				Virtual neutral
			</text>
			{/* biome-ignore lint/a11y/noStaticElementInteractions: clicking a part is a short cut to its row; the rows below are the way by keyboard */}
			<g
				onClick={(event) => {
					const key = (event.target as Element).closest('[data-part]')?.getAttribute('data-part');
					document.querySelector<HTMLElement>(`[data-field="${key} value"]`)?.focus();
				}}
			>
				{sense.map(part)}
				{halfBus.map(part)}
				{virtualNeutral.map(part)}
			</g>
		</svg>
	);
}

function Part({ place, row, isEdited }: { place: Place; row: InputRow; isEdited: boolean }) {
	const { id, x, y, lies, kind } = place;
	const choice = id.split('.')[1] ?? '';
	const [main = '', lowered = ''] = row.record.symbol.split('_');
	const spread = row.measured > 0 ? `${row.measured} measured` : spreadWords(row);
	/** Three of the same part lie under each other. */
	const isThree = id === 'sensing.virtualNeutral.star';
	const at =
		lies === 'across'
			? { x, y: y - (isThree ? 40 : 21), anchor: 'middle' as const }
			: { x: x + 14, y: y - 4, anchor: 'start' as const };
	return (
		<g class={`part ${choice}${isEdited ? ' is-edited' : ''}${row.was === null ? '' : ' is-changed'}`} data-part={id}>
			<rect
				class="halo"
				x={x - (lies === 'across' ? 24 : 14)}
				y={y - (isThree ? 30 : lies === 'across' ? 11 : 21)}
				width={lies === 'across' ? 48 : 28}
				height={isThree ? 60 : lies === 'across' ? 22 : 42}
				rx="3"
			/>
			{(isThree ? [y - 20, y, y + 20] : [y]).map((middle) => (
				<Body key={middle} kind={kind} lies={lies} x={x} y={middle} />
			))}
			<text x={at.x} y={at.y} text-anchor={at.anchor}>
				<tspan class="symbol">{main}</tspan>
				<tspan class="lowered" dy="3">
					{lowered}
				</tspan>
				<tspan class="value" dy="-3" dx="4">
					{textOf(row, 'value')}
				</tspan>
			</text>
			{spread && (
				<text class="spread" x={at.x} y={lies === 'across' ? y + (isThree ? 43 : 24) : y + 11} text-anchor={at.anchor}>
					{spread}
				</text>
			)}
		</g>
	);
}

function Body({ kind, lies, x, y }: Pick<Place, 'kind' | 'lies' | 'x' | 'y'>): ComponentChildren {
	if (kind === 'capacitor') return <path class="plates" d={`M${x - 11} ${y - 4}h22M${x - 11} ${y + 4}h22`} />;
	return lies === 'across' ? (
		<rect class="resistor" x={x - 18} y={y - 6} width="36" height="12" />
	) : (
		<rect class="resistor" x={x - 6} y={y - 18} width="12" height="36" />
	);
}

const Ground = ({ x, y }: { x: number; y: number }) => (
	<path d={`M${x - 8} ${y}h16M${x - 5} ${y + 3.5}h10M${x - 2} ${y + 7}h4`} />
);

const Terminal = ({ x, y, words }: { x: number; y: number; words: string }) => (
	<>
		<circle cx={x} cy={y} r="3.5" />
		<text x={x - 10} y={y + 4} text-anchor="end">
			{words}
		</text>
	</>
);

const textOf = ({ fields }: InputRow, name: string): string => fields.find(({ field }) => field === name)?.text ?? '';

function spreadWords(row: InputRow): string {
	const parts = (['lot', 'mismatch'] as const)
		.map((name) => textOf(row, name))
		.filter((text) => text !== '' && !/^0(?![.\d])/.test(text));
	return parts.length > 0 ? `± ${parts.join(' ± ')}` : '';
}
