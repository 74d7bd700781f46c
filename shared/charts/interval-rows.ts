import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { raised } from '../words/figures.ts';
import { linesOf } from '../words/lines-of.ts';
import { type ChartTheme, chartFrame, choiceMarks } from './theme.ts';

type Row = Readonly<Record<string, string | number | boolean | null>>;

interface IntervalRows {
	/** What the figures are called where they are saved. */
	readonly name: string;
	/** Each with its `choice` and what it `says`, and the fields below. */
	readonly rows: readonly Row[];
	/** Earlier figures, drawn as grey ticks; those off the axis must be left out. */
	readonly ghost?: readonly Row[] | null;
	/** What stands in each row's fields: its name, the figure, the limits of its interval, whether it is drawn open. */
	readonly fields: {
		readonly row: string;
		readonly value: string;
		readonly low: string;
		readonly high: string;
		readonly open: string;
		/** Where open marks stand, if not at the figure. */
		readonly openAt?: readonly string[];
		/** Tells the lines of a row apart, if not the choice alone. */
		readonly lane?: string;
	};
	/** Names of rows and lanes, from above. */
	readonly order: readonly string[];
	readonly lanes?: readonly string[];
	/** What is written beside a row, if not its name. */
	readonly label?: (name: string) => string;
	readonly scale: object;
	readonly axis: object;
	readonly height?: number;
	/** Drawn in across all rows, with words at its upper end. */
	readonly limit?: { readonly at: number; readonly words: string } | null;
}

/**
 * Figures of both choices with their intervals, a row for each, over one axis:
 * filled marks on whole or dashed lines, and open marks on dotted ones for what
 * is to be told apart from them.
 */
export function intervalRows(given: IntervalRows, theme: ChartTheme, description: string): TopLevelSpec {
	const { name, rows, ghost, fields, order, lanes = choiceNames, scale, axis, limit = null } = given;
	const { row, value, low, high, open, openAt = [value], lane = 'choice' } = fields;
	const x = (field: string) => ({ field, type: 'quantitative' as const, scale, axis });
	const y = { field: row, type: 'nominal' as const, sort: [...order], axis: rowAxis(order, given.label) };
	const yOffset = { field: lane, type: 'nominal' as const, sort: [...lanes], scale: { paddingOuter: 0.35 } };
	/** Where a row's figure stands; the limit stands across all of them. */
	const rowed = { y, yOffset };
	return {
		...chartFrame(theme, description, given.height ?? 210),
		datasets: { [name]: rows, ...(ghost && { ghost }) },
		data: { name },
		layer: [
			...(limit ? limitLine(limit, theme, { scale, axis }) : []),
			...(ghost
				? [
						{
							data: { name: 'ghost' },
							mark: { type: 'tick' as const, color: theme.quiet, thickness: 2, size: 16, opacity: 0.85 },
							encoding: { ...rowed, x: x(value), tooltip: { field: 'says' } },
						},
					]
				: []),
			...choiceNames.flatMap((choice) => {
				const { line } = theme.choice[choice];
				const only = (isOpen: boolean) => [
					{ filter: `datum.choice === '${choice}' && datum['${open}'] === ${isOpen}` },
				];
				const mark = { shape: choiceMarks[choice].shape, size: 70, stroke: line, strokeWidth: 2, opacity: 1 };
				const reach = { ...rowed, x: x(low), x2: { field: high } };
				return [
					{
						transform: only(false),
						mark: { type: 'rule' as const, color: line, strokeWidth: 2, strokeDash: choiceMarks[choice].dash },
						encoding: reach,
					},
					{
						transform: only(false),
						mark: { type: 'point' as const, ...mark, fill: line },
						encoding: { ...rowed, x: x(value), tooltip: { field: 'says' } },
					},
					{
						transform: only(true),
						mark: { type: 'rule' as const, color: line, strokeWidth: 2, strokeDash: [2, 3] },
						encoding: reach,
					},
					...openAt.map((field) => ({
						transform: only(true),
						mark: { type: 'point' as const, ...mark, fill: theme.paper },
						encoding: { ...rowed, x: x(field), tooltip: { field: 'says' } },
					})),
				];
			}),
		],
	} as TopLevelSpec;
}

/**
 * Scale, axis and ends of powers of ten, from the decade below the least positive
 * value to the one above the greatest, at most to 1.
 *
 * @param label a decade in print, by its exponent
 */
export function decades(
	values: readonly number[],
	{ least, most }: { readonly least: number; readonly most: number },
	label: (decade: number) => string = (decade) => (decade === 0 ? '1' : `10${raised(decade)}`),
) {
	const positive = values.filter((value) => value > 0);
	const first = decadeOf(Math.min(least, ...positive));
	const last = Math.min(0, decadeOf(Math.max(most, ...positive)) + 1);
	const all = Array.from({ length: last - first + 1 }, (_, i) => first + i);
	const ends = { low: Number(`1e${first}`), high: Number(`1e${last}`) };
	return {
		...ends,
		scale: { type: 'log', nice: false, domain: [ends.low, ends.high] },
		axis: {
			values: all.map((decade) => Number(`1e${decade}`)),
			labelExpr: `({${all.map((decade) => `'${decade < 0 ? '−' : ''}${Math.abs(decade)}': '${label(decade)}'`).join(', ')}})[format(log(datum.value) / LN10, '.0f')]`,
		},
	};
}

/** Exponent of the power of ten at or below a positive value. */
const decadeOf = (value: number): number => Number(value.toExponential().split('e')[1]);

/** Letters of a line beside the rows. */
const longestLine = 20;

const rowAxis = (names: readonly string[], label = (name: string) => name) => ({
	title: null,
	domain: false,
	ticks: false,
	labelLimit: 170,
	labelFontSize: 13,
	labelLineHeight: 15,
	labelExpr: `(${JSON.stringify(Object.fromEntries(names.map((name) => [name, linesOf(label(name), longestLine)])))})[datum.label]`,
});

const limitLine = (
	{ at, words }: NonNullable<IntervalRows['limit']>,
	theme: ChartTheme,
	shared: { scale: object; axis: object },
) => {
	const encoding = { x: { field: 'limit', type: 'quantitative' as const, ...shared } };
	return [
		{
			data: { values: [{ limit: at }] },
			mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 1.5 },
			encoding: { ...encoding, y: { value: 0 }, y2: { value: 'height' } },
		},
		{
			data: { values: [{ limit: at, words }] },
			mark: { type: 'text' as const, color: theme.ink, align: 'left' as const, dx: 5, y: -8 },
			encoding: { ...encoding, text: { field: 'words' } },
		},
	];
};
