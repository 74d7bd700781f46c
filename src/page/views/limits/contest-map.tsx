// biome-ignore-all lint/a11y/noAriaHiddenOnFocusable: the name of an axis cannot be focused
// biome-ignore-all lint/a11y/useSemanticElements: a grid that is drawn as a picture, so that it can be saved as one
// biome-ignore-all lint/a11y/useFocusableInteractive: rows and headings are heard with the cells, which take the focus
import { useEffect, useRef, useState } from 'preact/hooks';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { type ContestModel, neighbourCell } from '../../model/limits/contest.ts';
import { cellLetters, type MapCell } from '../../model/limits/contest-cells.ts';
import { SavePicture } from '../../parts/save-picture.tsx';

type Answer = NonNullable<ContestModel['answer']['value']>;

/** Room for the torques to the left and the speeds below, px. */
const gutter = 76;
const foot = 40;
/** Cells at least so wide have room for a second line. */
const roomy = 62;
/** And so wide for "was H" beside their letter. */
const roomyBeside = 96;

/** The map: a letter, a fill and the median difference in each cell, read out under the pointer and by arrow keys. */
export function ContestMap({ contest, answer }: { contest: ContestModel; answer: Answer }) {
	const place = useRef<HTMLDivElement>(null);
	const [width, setWidth] = useState(720);
	const [under, setUnder] = useState<MapCell | null>(null);
	useEffect(() => {
		const element = place.current;
		if (!element) return;
		const watcher = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 720)));
		watcher.observe(element);
		return () => watcher.disconnect();
	}, []);

	const { rows } = answer;
	const columns = rows[0]?.length ?? 1;
	const cellWidth = (width - gutter) / columns;
	const cellHeight = cellWidth < roomy ? 42 : 54;
	const height = rows.length * cellHeight + foot;
	const all = rows.flat();
	const focused = all.some(({ key }) => key === contest.focused.value) ? contest.focused.value : (all[0]?.key ?? '');

	const onKey = (event: KeyboardEvent): void => {
		const to = neighbourCell(rows, focused, event.key);
		if (to === null) return;
		event.preventDefault();
		contest.focused.value = to;
		place.current?.querySelector<SVGGElement>(`[data-cell="${CSS.escape(to)}"]`)?.focus();
	};

	return (
		<section class="contest" aria-labelledby="contest-title">
			<header>
				<h3 id="contest-title">Which choice is better where</h3>
				<MapKey hasGhost={answer.hasGhost} isRoomy={cellWidth >= roomyBeside} />
			</header>
			<p class="cell-readout" aria-hidden="true">
				{under?.says ?? 'Point at a cell, or reach the map by Tab and move with the arrow keys.'}
			</p>
			<div
				ref={place}
				class="contest-map"
				role="grid"
				aria-labelledby="contest-title"
				tabIndex={-1}
				onKeyDown={onKey}
				onPointerLeave={() => setUnder(null)}
			>
				<svg width={width} height={height} role="presentation">
					<g role="row">
						{rows[0]?.map(({ key, rpm }, column) => (
							<text
								key={key}
								role="columnheader"
								class="tick-label"
								x={gutter + (column + 0.5) * cellWidth}
								y={height - foot + 16}
								text-anchor="middle"
							>
								{rpm}
							</text>
						))}
					</g>
					<g aria-hidden="true">
						<text class="axis-title" x={gutter + (width - gutter) / 2} y={height - 6} text-anchor="middle">
							speed, rpm
						</text>
					</g>
					{rows.map((cells, row) => (
						<g key={cells[0]?.key} role="row">
							<text
								role="rowheader"
								class="tick-label"
								x={gutter - 8}
								y={(row + 0.5) * cellHeight + 4}
								text-anchor="end"
							>
								{cells[0]?.torque}
							</text>
							{cells.map((cell, column) => (
								<Cell
									key={cell.key}
									cell={cell}
									box={{ x: gutter + column * cellWidth, y: row * cellHeight, width: cellWidth, height: cellHeight }}
									isFocused={cell.key === focused}
									onLook={() => setUnder(cell)}
									onFocus={() => {
										contest.focused.value = cell.key;
										setUnder(cell);
									}}
								/>
							))}
						</g>
					))}
				</svg>
			</div>
			<SavePicture
				name="contest-map"
				svg={() => place.current?.querySelector('svg') ?? null}
				table={() => answer.table}
			/>
		</section>
	);
}

interface CellProps {
	readonly cell: MapCell;
	readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
	readonly isFocused: boolean;
	readonly onLook: () => void;
	readonly onFocus: () => void;
}

function Cell({ cell, box: { x, y, width, height }, isFocused, onLook, onFocus }: CellProps) {
	const { key, state, letter, by, passing, areBothFailing, was, says } = cell;
	const isRoomy = width >= roomy;
	const middle = x + width / 2;
	return (
		<g
			role="gridcell"
			class={`cell ${state.replace(' ', '-')}${areBothFailing ? ' both-fail' : ''}`}
			data-cell={key}
			tabIndex={isFocused ? 0 : -1}
			aria-label={says}
			onPointerEnter={onLook}
			onFocus={onFocus}
		>
			<rect class="ground" x={x + 1} y={y + 1} width={Math.max(0, width - 2)} height={height - 2} />
			<text class="letter" x={middle} y={y + (isRoomy && by ? 22 : 24)} text-anchor="middle">
				{letter}
			</text>
			{isRoomy && by && (
				<text class="by" x={middle} y={y + 37} text-anchor="middle">
					{by}
				</text>
			)}
			{was && (
				<text class="was" x={x + width - 5} y={y + 13} text-anchor="end">
					{width >= roomyBeside ? `was ${was}` : was}
				</text>
			)}
			{passing &&
				choiceNames.map((choice, line) => (
					<g key={choice} class={choice}>
						<rect
							class="bar-ground"
							x={x + 6}
							y={y + height - 11 + 4 * line}
							width={Math.max(0, width - 12)}
							height={3}
						/>
						<rect
							class="bar"
							x={x + 6}
							y={y + height - 11 + 4 * line}
							width={Math.max(0, (width - 12) * passing[choice])}
							height={3}
						/>
					</g>
				))}
		</g>
	);
}

function MapKey({ hasGhost, isRoomy }: { hasGhost: boolean; isRoomy: boolean }) {
	return (
		<ul class="map-key">
			{choiceNames.map((choice) => (
				<li key={choice}>
					<KeyCell kind={choice} letter={cellLetters[choice]} />
					{choiceWords[choice]} better
				</li>
			))}
			<li>
				<KeyCell kind="neither" letter="–" />
				neither shown to be
			</li>
			<li>
				<svg width="26" height="18" aria-hidden="true">
					{choiceNames.map((choice, line) => (
						<g key={choice} class={`cell ${choice}`}>
							<rect class="bar-ground" x="0" y={5 + 5 * line} width="26" height="3" />
							<rect class="bar" x="0" y={5 + 5 * line} width={line === 0 ? 22 : 14} height="3" />
						</g>
					))}
				</svg>
				drives that pass: above half-bus, below virtual neutral
			</li>
			<li>
				<KeyCell kind="halfBus both-fail" letter={cellLetters.halfBus} />
				grey: both fail the requirement
			</li>
			{hasGhost && <li>{isRoomy ? '“was”' : 'small, upper right'}: the baseline had another one</li>}
		</ul>
	);
}

/** A cell as the map has it, small. */
const KeyCell = ({ kind, letter }: { kind: string; letter: string }) => (
	<svg width="26" height="18" aria-hidden="true">
		<g class={`cell ${kind}`}>
			<rect class="ground" x="0.5" y="0.5" width="25" height="17" />
			<text class="letter small" x="13" y="13.5" text-anchor="middle">
				{letter}
			</text>
		</g>
	</svg>
);
