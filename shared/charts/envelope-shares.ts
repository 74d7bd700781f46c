import { choiceNames } from '../drive/drive.ts';
import type { CombinationResult, EnvelopeResult } from '../envelope/envelope-result.ts';
import { isWorse } from '../envelope/worst.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import { parameter, parameters } from '../parameters/parameters.ts';
import { failingIntervals, failingRow } from './failing-intervals.ts';
import type { Picture } from './pictures.ts';
import type { ChartTheme } from './theme.ts';

/** Combinations shown for each choice, the worst first. */
const shown = 6;

/** The worst combinations of either choice, each once: those that a reader wants to see. */
export function worstCombinations({
	combinations,
}: Pick<EnvelopeResult, 'combinations'>): readonly CombinationResult[] {
	const done = combinations.filter(({ units }) => units.finished > 0);
	const worst = choiceNames.map((choice) =>
		[...done]
			.sort((one, other) => (isWorse(one, other, choice) ? -1 : isWorse(other, one, choice) ? 1 : 0))
			.slice(0, shown),
	);
	const turns = Array.from({ length: shown }, (_, turn) => worst.flatMap((list) => list[turn] ?? [])).flat();
	return [...new Set(turns)];
}

/** Conditions with two limits, in the order in which signs stand for them. */
export const rangedIds = ({ combinations }: Pick<EnvelopeResult, 'combinations'>): readonly string[] =>
	parameters.map(({ id }) => id).filter((id) => combinations.some(({ limits }) => limits[id]));

/** "slow − + −". */
export function combinationSigns({ point, limits }: CombinationResult, ids: readonly string[]): string {
	const signs = ids.map((id) => (limits[id] === 'high' ? '+' : limits[id] === 'low' ? '−' : '·'));
	return [point, ...signs].join(' ');
}

/** What the signs stand for. */
export const signWords = (ids: readonly string[]): string =>
	`+ high, − low limit of ${ids.map((id) => (parameter(id) as NumberRecord).name).join(', ')}, in this order.`;

/** Drives that fail at the worst combinations of limits, with both choices, against what may fail. */
export function envelopeShares(
	result: EnvelopeResult,
	theme: ChartTheme,
	ghost: EnvelopeResult | null = null,
): Picture {
	const ids = rangedIds(result);
	return failingIntervals(
		{
			name: 'combinations',
			where: 'at the worst combinations of limits',
			rows: rowsOf(worstCombinations(result), ids),
			ghost: ghost && rowsOf(ghost.combinations, ids),
			limit: 1 - result.requirement.share,
			rowHeight: 34,
		},
		theme,
	);
}

const rowsOf = (combinations: readonly CombinationResult[], ids: readonly string[]) =>
	combinations.flatMap((one) =>
		choiceNames.map((choice) => failingRow(combinationSigns(one, ids), choice, one.choices[choice].verdict)),
	);
