import type { TopLevelSpec } from 'vega-lite';
import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import type { ChoiceFigures } from '../study/result.ts';
import { raised } from '../words/figures.ts';
import { choiceWords, eventKinds, eventWords } from '../words/names.ts';
import { rateWords } from '../words/rate.ts';
import { type ChartTheme, chartConfig, choiceMarks } from './theme.ts';

/** One bar of the rates picture. */
export interface RateRow {
	readonly event: string;
	readonly choice: ChoiceName;
	readonly rate: number | null;
	/** Left end of the bar: the lower limit, or the picture's left edge where that is zero. */
	readonly from: number;
	readonly high: number;
	/** No event seen: `high` bounds the share of affected units, not a rate per sector. */
	readonly bound: boolean;
	readonly says: string;
}

/**
 * Rates per measured sector with their intervals on a logarithmic axis. A rate
 * of zero has no place there: its upper bound on the share of affected units is
 * drawn as an open mark on a dotted line, and called that.
 *
 * @param ghost an earlier result's rates, drawn as grey ticks
 */
export function rateIntervals(
	choices: PerChoice<Pick<ChoiceFigures, 'rates'>>,
	theme: ChartTheme,
	description: string,
	ghost?: PerChoice<Pick<ChoiceFigures, 'rates'>>,
): TopLevelSpec {
	const { rows, decades } = rateRows(choices);
	const [first = 0, last = 0] = [decades[0], decades.at(-1)];
	// what lies off the present axis is left out: the table has it
	const before = ghost
		? rateRows(ghost).rows.filter(
				({ rate }) => rate !== null && rate >= Number(`1e${first}`) && rate <= Number(`1e${last}`),
			)
		: null;
	const rateAxis = {
		title: axisTitle(rows),
		values: decades.map((decade) => Number(`1e${decade}`)),
		labelExpr: `({${decades.map((decade) => `'${decade < 0 ? '−' : ''}${Math.abs(decade)}': '${decade === 0 ? '1' : `10${raised(decade)}`}'`).join(', ')}})[format(log(datum.value) / LN10, '.0f')]`,
	};
	const scale = { type: 'log' as const, nice: false, domain: [rateAxis.values[0], rateAxis.values.at(-1)] };
	const y = {
		field: 'event',
		type: 'nominal' as const,
		sort: eventKinds.map((kind) => eventWords[kind]),
		axis: eventAxis,
	};
	const x = { field: 'from', type: 'quantitative' as const, scale, axis: rateAxis };
	const yOffset = { field: 'choice', type: 'nominal' as const, sort: [...choiceNames], scale: { paddingOuter: 0.35 } };
	return {
		description,
		config: chartConfig(theme),
		width: 640,
		height: 210,
		autosize: { type: 'fit', contains: 'padding' },
		datasets: { rates: rows, ...(before && { ghost: before }) },
		data: { name: 'rates' },
		encoding: { y, yOffset },
		layer: [
			...(before
				? [
						{
							data: { name: 'ghost' },
							mark: { type: 'tick' as const, color: theme.quiet, thickness: 2, size: 16, opacity: 0.85 },
							encoding: {
								x: { field: 'rate', type: 'quantitative' as const, scale, axis: rateAxis },
								tooltip: { field: 'says' },
							},
						},
					]
				: []),
			...choiceNames.flatMap((choice) => {
				const { line } = theme.choice[choice];
				const only = (bound: boolean) => [{ filter: `datum.choice === '${choice}' && datum.bound === ${bound}` }];
				const mark = { shape: choiceMarks[choice].shape, size: 70, stroke: line, strokeWidth: 2, opacity: 1 };
				const end = { field: 'high', type: 'quantitative' as const, axis: rateAxis };
				return [
					{
						transform: only(false),
						mark: { type: 'rule' as const, color: line, strokeWidth: 2, strokeDash: choiceMarks[choice].dash },
						encoding: { x, x2: { field: 'high' } },
					},
					{
						transform: only(false),
						mark: { type: 'point' as const, ...mark, fill: line },
						encoding: { x: { ...end, field: 'rate' }, tooltip: { field: 'says' } },
					},
					{
						transform: only(true),
						mark: { type: 'rule' as const, color: line, strokeWidth: 1.5, strokeDash: [1, 4] },
						encoding: { x, x2: { field: 'high' } },
					},
					{
						transform: only(true),
						mark: { type: 'point' as const, ...mark, fill: theme.paper },
						encoding: { x: end, tooltip: { field: 'says' } },
					},
				];
			}),
		],
	} as TopLevelSpec;
}

const eventAxis = { title: null, domain: false, ticks: false, labelLimit: 170, labelFontSize: 13 };

function rateRows(choices: PerChoice<Pick<ChoiceFigures, 'rates'>>): { rows: RateRow[]; decades: number[] } {
	const all = eventKinds.flatMap((kind) =>
		choiceNames.map((choice) => ({ kind, choice, figure: choices[choice].rates[kind] })),
	);
	const positive = all.flatMap(({ figure }) => [figure.low, figure.rate, figure.high]).filter((value) => value > 0);
	const lowest = decadeOf(Math.min(0.1, ...positive));
	const highest = Math.min(0, decadeOf(Math.max(0.01, ...positive)) + 1);
	const rows = all.map(({ kind, choice, figure }) => {
		const bound = figure.boundOn === 'units';
		return {
			event: eventWords[kind],
			choice,
			rate: bound ? null : figure.rate,
			from: figure.low > 0 ? figure.low : Number(`1e${lowest}`),
			high: figure.high,
			bound,
			says: `${choiceWords[choice]}, ${eventWords[kind]}: ${rateWords(figure)}`,
		};
	});
	return { rows, decades: Array.from({ length: highest - lowest + 1 }, (_, i) => lowest + i) };
}

/** What the axis measures: rates, bounds on drives where nothing was seen, or both. */
function axisTitle(rows: readonly RateRow[]): string {
	if (rows.every(({ bound }) => bound)) return 'share of drives affected, upper bound';
	return rows.some(({ bound }) => bound) ? 'per sector · open marks: share of drives' : 'per measured sector';
}

/** Exponent of the power of ten at or below a positive value. */
const decadeOf = (value: number): number => Number(value.toExponential().split('e')[1]);
