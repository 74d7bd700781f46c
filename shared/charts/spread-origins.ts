import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { bareName, isSlight } from '../origins/origin-words.ts';
import type { OriginsResult } from '../origins/origins-result.ts';
import { shareWords } from '../origins/origins-sentence.ts';
import { choiceWords } from '../words/names.ts';
import { intervalRows } from './interval-rows.ts';
import type { ChartTheme } from './theme.ts';

/** Groups drawn; the table has all. */
const mostDrawn = 10;

/**
 * Shares of the spread by where they come from, with their intervals: what a
 * group makes alone (filled) and what would stay if only it varied (open), for
 * both choices; the largest above.
 *
 * @param ghost an earlier result, drawn as grey ticks
 */
export function spreadOrigins(
	result: OriginsResult,
	theme: ChartTheme,
	description: string,
	ghost?: OriginsResult | null,
): TopLevelSpec {
	const order = drawnGroups(result);
	const rows = shareRows(result).filter(({ group }) => order.includes(group));
	const lowest = Math.min(0, ...rows.map(({ low }) => low));
	const highest = Math.min(1.1, Math.max(0.1, ...rows.map(({ high }) => high)));
	const domain = [Math.max(-0.1, lowest), highest];
	const within = (share: number): boolean => share >= (domain[0] as number) && share <= highest;
	const before = ghost ? shareRows(ghost).filter(({ group, share }) => order.includes(group) && within(share)) : null;
	return intervalRows(
		{
			name: 'shares',
			rows: rows.map((row) => ({
				...row,
				low: Math.max(domain[0] as number, row.low),
				high: Math.min(highest, row.high),
			})),
			ghost: before,
			fields: { row: 'group', value: 'share', low: 'low', high: 'high', open: 'interactions', lane: 'lane' },
			order,
			lanes: choiceNames.flatMap((choice) => [laneOf(choice, false), laneOf(choice, true)]),
			height: 56 + 52 * order.length,
			scale: { domain, nice: false },
			axis: {
				title: 'share of the variance',
				tickCount: 5,
				labelExpr: "replace(format(100 * datum.value, '.0f'), '-', '−') + ' %'",
			},
		},
		theme,
		description,
	);
}

/** Names of the groups worth drawing for either choice, the largest first. */
function drawnGroups({ choices }: OriginsResult): readonly string[] {
	const largest = new Map<string, number>();
	for (const choice of choiceNames) {
		for (const group of choices[choice].groups) {
			if (isSlight(group)) continue;
			const name = bareName(group.name);
			largest.set(name, Math.max(largest.get(name) ?? 0, group.total.value));
		}
	}
	return [...largest]
		.sort(([, one], [, other]) => other - one)
		.slice(0, mostDrawn)
		.map(([name]) => name);
}

const laneOf = (choice: string, interactions: boolean): string =>
	`${choice}${interactions ? ' with interactions' : ''}`;

const shareRows = ({ choices }: OriginsResult) =>
	choiceNames.flatMap((choice) =>
		choices[choice].groups.flatMap(({ name, first, total }) =>
			[first, total].map((share) => {
				const interactions = share === total;
				const kind = interactions ? 'with interactions' : 'alone';
				return {
					group: bareName(name),
					choice,
					lane: laneOf(choice, interactions),
					share: share.value,
					low: share.low,
					high: share.high,
					interactions,
					says: `${choiceWords[choice]}, ${bareName(name)} ${kind}: ${shareWords(share.value)}, interval ${shareWords(share.low)} … ${shareWords(share.high)}`,
				};
			}),
		),
	);
