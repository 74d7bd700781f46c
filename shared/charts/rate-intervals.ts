import type { TopLevelSpec } from 'vega-lite';
import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import type { ChoiceFigures } from '../study/result.ts';
import { choiceWords, eventKinds, eventWords } from '../words/names.ts';
import { rateWords } from '../words/rate.ts';
import { decades, intervalRows } from './interval-rows.ts';
import type { ChartTheme } from './theme.ts';

/** One bar of the rates picture. */
interface RateRow extends Readonly<Record<string, string | number | boolean | null>> {
	readonly event: string;
	readonly choice: ChoiceName;
	readonly rate: number | null;
	readonly low: number;
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
	const rows = rateRows(choices);
	const { low, high, scale, axis } = decades(
		rows.flatMap((row) => [row.low, row.rate ?? 0, row.high]),
		{ least: 0.1, most: 0.01 },
	);
	// where the lower limit is zero, the bar begins at the picture's left edge
	const drawn = (row: RateRow) => ({ ...row, drawnFrom: row.low > 0 ? row.low : low });
	// what lies off the present axis is left out: the table has it
	const before = ghost && rateRows(ghost).filter(({ rate }) => rate !== null && rate >= low && rate <= high);
	return intervalRows(
		{
			name: 'rates',
			rows: rows.map(drawn),
			ghost: before ? before.map(drawn) : null,
			fields: { row: 'event', value: 'rate', low: 'drawnFrom', high: 'high', open: 'bound', openAt: ['high'] },
			order: eventKinds.map((kind) => eventWords[kind]),
			scale,
			axis: { ...axis, title: axisTitle(rows) },
		},
		theme,
		description,
	);
}

const rateRows = (choices: PerChoice<Pick<ChoiceFigures, 'rates'>>): RateRow[] =>
	eventKinds.flatMap((kind) =>
		choiceNames.map((choice) => {
			const figure = choices[choice].rates[kind];
			const bound = figure.boundOn === 'units';
			return {
				event: eventWords[kind],
				choice,
				rate: bound ? null : figure.rate,
				low: figure.low,
				high: figure.high,
				bound,
				says: `${choiceWords[choice]}, ${eventWords[kind]}: ${rateWords(figure)}`,
			};
		}),
	);

/** What the axis measures: rates, bounds on drives where nothing was seen, or both. */
function axisTitle(rows: readonly RateRow[]): string {
	if (rows.every(({ bound }) => bound)) return 'share of drives affected, upper bound';
	return rows.some(({ bound }) => bound) ? 'per sector · open marks: share of drives' : 'per measured sector';
}
