import type { TopLevelSpec } from 'vega-lite';
import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import { computedWords } from '../study/computed-rows.ts';
import type { ChoiceFigures } from '../study/result.ts';
import { choiceWords, type EventKind, eventKinds, eventWords } from '../words/names.ts';
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
	/** Drawn open at `high`: no event seen, and `high` bounds the share of affected units, not a rate per sector; or a chance too small for the axis. */
	readonly open: boolean;
	readonly says: string;
}

type Rates = PerChoice<Pick<ChoiceFigures, 'rates' | 'computed'>>;

/** Chances per sector below this stand at the axis's end: at 3·10⁷ sectors an hour, a fast drive's, one event in about four years. */
export const leastDrawn = 1e-12;

/** Whether a chance too small for the axis is among them. */
export const hasTinyChance = (choices: Rates): boolean =>
	choiceNames.some((choice) => eventKinds.some((kind) => isTiny(choices[choice].computed?.[kind].rate ?? 1)));

const isTiny = (rate: number): boolean => rate < leastDrawn;

/**
 * Rates per measured sector with their intervals on a logarithmic axis, as
 * counted and, where there are any, as computed from the chances of every
 * sector. A rate of zero has no place there: its upper bound on the share of
 * affected units is drawn as an open mark on a dotted line, and called that.
 *
 * @param ghost an earlier result's rates, drawn as grey ticks
 */
export function rateIntervals(choices: Rates, theme: ChartTheme, description: string, ghost?: Rates): TopLevelSpec {
	const counted = countedRows(choices);
	const rows = [...counted, ...computedRows(choices)];
	const { low, high, scale, axis } = decades(
		rows.flatMap((row) => [row.low, row.rate ?? 0, row.high]),
		{ least: 0.1, most: 0.01 },
	);
	// where the lower limit is zero, or beyond the axis, the bar begins at the picture's left edge
	const drawn = (row: RateRow) => ({ ...row, drawnFrom: Math.max(row.low, low) });
	// what lies off the present axis is left out: the table has it
	const before =
		ghost &&
		[...countedRows(ghost), ...computedRows(ghost)].filter(({ rate }) => rate !== null && rate >= low && rate <= high);
	const order = eventKinds.flatMap((kind) => [eventWords[kind], computedName(kind)]);
	return intervalRows(
		{
			name: 'rates',
			rows: rows.map(drawn),
			ghost: before ? before.map(drawn) : null,
			fields: { row: 'event', value: 'rate', low: 'drawnFrom', high: 'high', open: 'open', openAt: ['high'] },
			order: order.filter((name) => rows.some(({ event }) => event === name)),
			// it stands under its own kind's row
			label: (name) => (name.endsWith(computedMark) ? 'computed' : name),
			scale,
			axis: { ...axis, labelOverlap: true, title: axisTitle(counted, rows.length > counted.length) },
			height: rows.length > counted.length ? 330 : 210,
		},
		theme,
		description,
	);
}

const computedMark = ', computed';
const computedName = (kind: EventKind): string => eventWords[kind] + computedMark;

const countedRows = (choices: Rates): RateRow[] =>
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
				open: bound,
				says: `${choiceWords[choice]}, ${eventWords[kind]}: ${rateWords(figure)}`,
			};
		}),
	);

const computedRows = (choices: Rates): RateRow[] =>
	eventKinds.flatMap((kind) =>
		choiceNames.flatMap((choice) => {
			const figure = choices[choice].computed?.[kind];
			if (!figure) return [];
			const open = isTiny(figure.rate);
			const [low, high] = figure.interval ?? [figure.rate, figure.rate];
			return [
				{
					event: computedName(kind),
					choice,
					rate: open ? null : figure.rate,
					low: open ? leastDrawn : Math.max(low, leastDrawn),
					high: open ? leastDrawn : high,
					open,
					says: `${choiceWords[choice]}, ${computedName(kind)}: ${computedWords(figure)}`,
				},
			];
		}),
	);

/** What the axis measures: rates, bounds on drives where nothing was seen, or both. */
function axisTitle(rows: readonly RateRow[], isComputed: boolean): string {
	if (!isComputed && rows.every(({ open }) => open)) return 'share of drives affected, upper bound';
	return rows.some(({ open }) => open) ? 'per sector · dotted: share of drives' : 'per measured sector';
}
