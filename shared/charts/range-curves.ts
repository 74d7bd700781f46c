import ln from '@stdlib/math-base-special-ln';
import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { joinParts } from '../parameters/format-quantity.ts';
import type { Unit } from '../parameters/parameter.ts';
import type { RangeResult } from '../range/range-result.ts';
import { valueWords } from '../range/setting.ts';
import { capital } from '../words/capital.ts';
import { degrees, percent, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { quantity, quantityParts } from '../words/quantity.ts';
import { type CurvePoint, freePlace } from './free-place.ts';
import { ghostLine, underPointer } from './layers.ts';
import type { Picture } from './pictures.ts';
import { type RangeRow, rangeReadouts, rangeRows } from './range-rows.ts';
import { type ChartTheme, chartFrame, choiceMarks } from './theme.ts';

/** Errors so many times the limit run off the picture's top: what matters is where they cross it. */
const topOfLimit = 4;

/**
 * What 1 drive in 20 exceeds along a parameter, with its interval as a band, the
 * median drive as a thin line, and the limit drawn in.
 *
 * @param ghost the baseline's range, drawn as thin grey lines
 */
export function rangeErrors(result: RangeResult, theme: ChartTheme, ghost: RangeResult | null = null): Picture {
	const rows = rangeRows(result);
	const { angleLimit } = result.requirement;
	const greatest = Math.max(angleLimit, ...rows.map(({ worse, worseHigh }) => worseHigh ?? worse ?? 0));
	const top = Math.min(1.06 * greatest, topOfLimit * angleLimit);
	const y = (field: string) => ({
		field,
		type: 'quantitative' as const,
		scale: { domain: [0, top], nice: false },
		axis: {
			title: 'error, electrical degrees',
			tickCount: 5,
			labelExpr: "datum.label + '°'",
			minExtent: 48,
		},
	});
	const id = result.axes[0]?.id ?? '';
	const describes = `What 1 drive in 20 exceeds, by ${result.axes[0]?.name}; the limit is ${degrees(angleLimit)}. ${choiceByChoice(rows, (own) => errorWords(own, id))}`;
	const spec = {
		...frame(result, theme, describes, 300),
		datasets: {
			curves: rows,
			...(ghost && { ghost: rangeRows(ghost) }),
			readouts: rangeReadouts(
				rows,
				({ worse, median }) =>
					worse === null ? 'loses lock' : `${degrees(worse)}, median ${median === null ? 'lost' : degrees(median)}`,
				id,
			),
		},
		layer: [
			limitRule(angleLimit, theme),
			...choiceNames.map((choice) => band(choice, theme, y('worseLow'), 'worseHigh')),
			...(ghost ? choiceNames.map((choice) => ghostCurve(choice, theme, y('worse'))) : []),
			...choiceNames.map((choice) => curve(choice, theme, y('median'), { strokeWidth: 1, opacity: 0.75 })),
			...choiceNames.map((choice) => curve(choice, theme, y('worse'), { strokeWidth: 2 })),
			...choiceNames.map((choice) => dots(choice, theme, y('worse'), 'datum.searched ? 20 : 55', 'true')),
			...choiceNames.map((choice, i) => ({
				data: { name: 'curves' },
				transform: [{ filter: `datum.choice === '${choice}' && datum.lost` }],
				mark: {
					type: 'text' as const,
					text: '×',
					fontSize: 15,
					fontWeight: 'bold' as const,
					color: theme.choice[choice].line,
					y: 8 + 12 * i,
				},
				encoding: { tooltip: { field: 'says' } },
			})),
			...limitWords(angleLimit, `limit ${angleLimit}°`, theme, {
				side: 'above',
				place: freePlace(
					{ width: wordsWidth, low: angleLimit, high: angleLimit + wordsHeight * top },
					curvesOf(result, rows, ({ worse }) => worse).concat(curvesOf(result, rows, ({ median }) => median)),
					[],
					'right',
				),
			}),
			readoutRules(theme),
		],
	};
	return { spec: spec as unknown as TopLevelSpec, describes };
}

/** Share of drives that pass along a parameter, with its limits as a band, the share required, and the slowest speed that holds. */
export function rangePassing(result: RangeResult, theme: ChartTheme, ghost: RangeResult | null = null): Picture {
	const rows = rangeRows(result);
	const { share, confidence } = result.requirement;
	const ends = endsOf(result);
	const y = (field: string) => ({
		field,
		type: 'quantitative' as const,
		scale: { domain: [0, 1] },
		axis: {
			title: 'share of drives that pass',
			format: '.0%',
			labelExpr: "replace(datum.label, '%', '\u00a0%')",
			values: [0, 0.25, 0.5, 0.75, 1],
			minExtent: 48,
		},
	});
	const id = result.axes[0]?.id ?? '';
	const describes = `Share of drives that pass, by ${result.axes[0]?.name}; ${levelWords(share)} are required, with ${levelWords(confidence)} confidence. ${choiceByChoice(rows, (own) => passWords(own, id))}`;
	const spec = {
		...frame(result, theme, describes, 230),
		datasets: {
			curves: rows,
			...(ghost && { ghost: rangeRows(ghost) }),
			ends,
			readouts: rangeReadouts(
				rows,
				(row) =>
					`${percent(row.share ?? Number.NaN)} (${span(percent(row.shareLow, 'down'), percent(row.shareHigh, 'up'))}), ${row.decision}`,
				id,
			),
		},
		layer: [
			limitRule(share, theme),
			...choiceNames.map((choice) => band(choice, theme, y('shareLow'), 'shareHigh')),
			...(ghost ? choiceNames.map((choice) => ghostCurve(choice, theme, y('share'))) : []),
			...choiceNames.map((choice) => curve(choice, theme, y('share'), { strokeWidth: 2 })),
			...choiceNames.map((choice) =>
				dots(choice, theme, y('share'), 'datum.searched ? 20 : 55', "datum.decision === 'holds'"),
			),
			...choiceNames.flatMap((choice, i) => {
				const only = [{ filter: `datum.choice === '${choice}'` }];
				const { line } = theme.choice[choice];
				const isLeft = ends.some((end) => end.choice === choice && end.side === 'left');
				return [
					{
						data: { name: 'ends' },
						transform: only,
						mark: { type: 'rule' as const, color: line, strokeWidth: 1.25, strokeDash: choiceMarks[choice].dash },
					},
					...rimmed(theme).map((rim) => ({
						data: { name: 'ends' },
						transform: only,
						mark: {
							type: 'text' as const,
							color: line,
							align: isLeft ? ('right' as const) : ('left' as const),
							dx: isLeft ? -4 : 4,
							fontSize: 12,
							...rim,
						},
						encoding: { y: { datum: 0.05 + 0.09 * (1 - i) }, text: { field: 'words' } },
					})),
				];
			}),
			...limitWords(share, `required ${levelWords(share)}`, theme, {
				side: 'below',
				place: freePlace(
					{ width: wordsWidth, low: share - wordsHeight, high: share },
					curvesOf(result, rows, (row) => row.share),
					ends.map((end) => placeOn(result, end.at)),
					'left',
				),
			}),
			readoutRules(theme),
		],
	};
	return { spec: spec as unknown as TopLevelSpec, describes };
}

/** What all of them have in common: size, and the parameter's axis with its values as ticks. */
function frame({ axes, values }: RangeResult, theme: ChartTheme, description: string, height: number) {
	const [axis] = axes;
	const ticks = [...(axis?.values ?? [])].sort((one, other) => one - other);
	const seen = values.map(({ at }) => at[axis?.id ?? ''] as number);
	const { title, labelExpr } = tickWords(axis?.name ?? '', ticks, axis?.unit ?? '1');
	return {
		...chartFrame(theme, description, height),
		data: { name: 'curves' },
		encoding: {
			x: {
				field: 'at',
				type: 'quantitative' as const,
				scale: {
					type: axis?.spacing === 'logarithmic' ? ('log' as const) : ('linear' as const),
					nice: false,
					...(axis?.spacing !== 'logarithmic' && { zero: false }),
					domain: [Math.min(...ticks, ...seen), Math.max(...ticks, ...seen)],
				},
				axis: {
					title,
					grid: false,
					values: ticks,
					labelExpr,
					labelOverlap: false,
					// centred below its tick; the picture makes room for the outermost two
					labelFlush: false,
				},
			},
		},
	};
}

/** Generous widths of a digit and of the gap between two labels, px. */
const digitWidth = 7.5;
const labelGap = 12;

/**
 * An axis whose ticks are the values looked at: the unit once in its title, where they share it, and as many labels as
 * there is room for, always those of both ends.
 *
 * @param ticks ascending
 */
function tickWords(name: string, ticks: readonly number[], unit: Unit) {
	const parts = ticks.map((value) => quantityParts(value, unit, 3));
	const ending = parts[0]?.unit ?? '';
	// degrees stand close to their numbers
	const isShared = ending !== '' && ending !== '°' && parts.every((own) => own.unit === ending);
	const labels = parts.map((own) => (isShared ? own.number : joinParts(own, '\u00a0')));
	const places = ticks.map((value, i) => [value, [i, labels[i]]]);
	const last = ticks.length - 1;
	const room = digitWidth * Math.max(...labels.map((label) => label.length)) + labelGap;
	const tick = `(${JSON.stringify(Object.fromEntries(places))})['' + datum.value]`;
	const steps = `clamp(floor(width / ${room}), 1, ${Math.max(1, last)})`;
	const isLabelled = `round(round(${tick}[0] * ${steps} / ${last}) * ${last} / ${steps}) === ${tick}[0]`;
	return {
		title: isShared ? `${name}, ${ending}` : name,
		labelExpr: last > 0 ? `${isLabelled} ? ${tick}[1] : ''` : `${tick}[1]`,
	};
}

type Scaled = {
	readonly field: string;
	readonly type: 'quantitative';
	readonly scale: { readonly domain: readonly number[] };
	readonly axis: object;
};

const band = (choice: (typeof choiceNames)[number], theme: ChartTheme, y: Scaled, high: string) => ({
	transform: [{ filter: `datum.choice === '${choice}' && isValid(datum.${y.field}) && isValid(datum.${high})` }],
	mark: { type: 'area' as const, fill: theme.choice[choice].fill, clip: true },
	encoding: { y, y2: { field: high }, detail: { field: 'stretch' } },
});

const curve = (choice: (typeof choiceNames)[number], theme: ChartTheme, y: Scaled, style: object) => ({
	transform: [{ filter: `datum.choice === '${choice}' && isValid(datum.${y.field})` }],
	mark: {
		type: 'line' as const,
		color: theme.choice[choice].line,
		strokeDash: choiceMarks[choice].dash,
		clip: true,
		...style,
	},
	encoding: { y, detail: { field: 'stretch' } },
});

const ghostCurve = (choice: (typeof choiceNames)[number], theme: ChartTheme, y: Scaled) => ({
	...curve(choice, theme, y, ghostLine(theme)),
	data: { name: 'ghost' },
});

/** @param filled where a mark is filled, as an expression */
const dots = (choice: (typeof choiceNames)[number], theme: ChartTheme, y: Scaled, size: string, filled: string) => ({
	transform: [
		// those above the picture's top are left out, not cut in two
		{ filter: `datum.choice === '${choice}' && isValid(datum.${y.field}) && datum.${y.field} <= ${y.scale.domain[1]}` },
		{ calculate: size, as: 'size' },
	],
	mark: {
		type: 'point' as const,
		shape: choiceMarks[choice].shape,
		stroke: theme.choice[choice].line,
		strokeWidth: 1.75,
		opacity: 1,
	},
	encoding: {
		y,
		size: { field: 'size', type: 'quantitative' as const, scale: null },
		fill: { condition: { test: filled, value: theme.choice[choice].line }, value: theme.paper },
	},
});

const limitRule = (at: number, theme: ChartTheme) => ({
	data: { values: [{ limit: at }] },
	mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 1.5 },
	encoding: { x: { value: 0 }, x2: { value: 'width' }, y: { field: 'limit', type: 'quantitative' as const } },
});

/** Words twice: a rim of paper, so that what runs under them is interrupted, and the words over it. */
const rimmed = (theme: ChartTheme) => [{ stroke: theme.paper, strokeWidth: 4, strokeJoin: 'round' as const }, {}];

/** What words at a limit take of a picture 300 px wide and 140 px high, as shares: on a wider one they take less. */
const wordsWidth = 0.3;
const wordsHeight = 0.12;

/** What the limit is, where curves are not, or over them. */
const limitWords = (
	at: number,
	words: string,
	theme: ChartTheme,
	{ side, place }: { readonly side: 'above' | 'below'; readonly place: number },
) =>
	rimmed(theme).map((rim) => ({
		data: { values: [{ limit: at, words }] },
		mark: {
			type: 'text' as const,
			color: theme.ink,
			// errors grow and passing drives get fewer towards the slow end: looked for from the end where curves seldom are
			align: side === 'above' ? ('right' as const) : ('left' as const),
			baseline: side === 'above' ? ('bottom' as const) : ('top' as const),
			dy: side === 'above' ? -4 : 5,
			dx: side === 'above' ? -4 : 4,
			...rim,
		},
		encoding: {
			x: { value: { expr: `${place} * width` } },
			y: { field: 'limit', type: 'quantitative' as const },
			text: { field: 'words' },
		},
	}));

/** A value of the parameter as a share of the picture's width. */
function placeOn({ axes, values }: RangeResult, value: number): number {
	const [axis] = axes;
	const all = [...(axis?.values ?? []), ...values.map(({ at }) => at[axis?.id ?? ''] as number)];
	const scaled = (one: number): number => (axis?.spacing === 'logarithmic' ? ln(one) : one);
	const [low, high] = [scaled(Math.min(...all)), scaled(Math.max(...all))];
	return high > low ? (scaled(value) - low) / (high - low) : 0;
}

/** A figure's curves, as far as they are drawn. */
const curvesOf = (
	result: RangeResult,
	rows: readonly RangeRow[],
	read: (row: RangeRow) => number | null,
): readonly (readonly CurvePoint[])[] =>
	choiceNames.map((choice) =>
		rows.flatMap((row): CurvePoint[] => {
			const figure = row.choice === choice ? read(row) : null;
			return figure === null ? [] : [[placeOn(result, row.at), figure]];
		}),
	);

const readoutOf = underPointer('at');

/** Wide invisible lines that carry the figures read out on hover. */
const readoutRules = (theme: ChartTheme) => ({
	data: { name: 'readouts' },
	params: readoutOf.params,
	mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 18, tooltip: { content: 'data' as const } },
	encoding: {
		opacity: readoutOf.opacity,
		tooltip: { field: 'says' },
	},
});

/** Room that the name of a speed takes beside its line, as a share of a narrow picture's width. */
const endWidth = 0.19;

/** The slowest speed down to which the requirement holds with each choice, and on which side of its line that stands: off the other one's. */
function endsOf(result: RangeResult) {
	const { slowest, values, axes } = result;
	const slow = Math.min(...values.map(({ at }) => at[axes[0]?.id ?? ''] as number));
	const ends = choiceNames.flatMap((choice) => {
		const holds = slowest?.[0]?.choices[choice].holds ?? null;
		return holds === null || holds === slow ? [] : [{ choice, at: holds, words: quantity(holds, 'rpm') }];
	});
	return ends.map((end) => {
		const place = placeOn(result, end.at);
		const isBeforeAnother = ends.some((other) => other.at > end.at);
		const isLeft = place > 1 - endWidth || (isBeforeAnother && place > endWidth);
		return { ...end, side: isLeft ? ('left' as const) : ('right' as const) };
	});
}

/** What is to be said of each choice's rows. */
const choiceByChoice = (rows: readonly RangeRow[], words: (own: readonly RangeRow[]) => string): string =>
	choiceNames
		.map((choice) => `${capital(choiceWords[choice])}: ${words(rows.filter((row) => row.choice === choice))}.`)
		.join(' ');

/** "14.1° at 500 rpm to 3.11° at 3300 rpm, least 2.82° at 2059 rpm". */
function errorWords(rows: readonly RangeRow[], id: string): string {
	const word = ({ worse, at }: RangeRow): string =>
		`${worse === null ? 'lock lost' : degrees(worse)} at ${valueWords(id, at)}`;
	const [first, last] = [rows[0], rows.at(-1)];
	if (!first || !last) return 'nothing was finished';
	const least = rows.reduce((one, other) => ((other.worse ?? Infinity) < (one.worse ?? Infinity) ? other : one));
	return `${word(first)} to ${word(last)}${least === first || least === last ? '' : `, least ${word(least)}`}`;
}

/** "2.5 % at 500 rpm to 56.5 % at 3300 rpm; holds at 1015 rpm, 1285 rpm". */
function passWords(rows: readonly RangeRow[], id: string): string {
	const [first, last] = [rows[0], rows.at(-1)];
	if (!first || !last) return 'nothing was finished';
	const word = ({ share, at }: RangeRow): string => `${percent(share ?? Number.NaN)} at ${valueWords(id, at)}`;
	const holding = rows.filter(({ decision }) => decision === 'holds').map(({ at }) => valueWords(id, at));
	return `${word(first)} to ${word(last)}; the requirement holds ${holding.length === 0 ? 'nowhere' : `at ${holding.join(', ')}`}`;
}
