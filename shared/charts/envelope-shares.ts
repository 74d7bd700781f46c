import { choiceNames } from '../drive/drive.ts';
import type { CombinationResult, EnvelopeResult } from '../envelope/envelope-result.ts';
import { isWorse } from '../envelope/worst.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import { parameter, parameters } from '../parameters/parameters.ts';
import { capital } from '../words/capital.ts';
import { percent, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { decades, intervalRows } from './interval-rows.ts';
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
	const worst = worstCombinations(result);
	const limit = 1 - result.requirement.share;
	const rows = rowsOf(worst, ids);
	const names = rows.map(({ place }) => place);
	const scaled = decades(
		[limit, ...rows.flatMap(({ failing, low, high }) => [failing, low, high])],
		{ least: 0.1, most: 0.1 },
		(decade) => levelWords(Number(`1e${decade}`)),
	);
	const before = ghost
		? rowsOf(ghost.combinations, ids).filter(({ place, failing }) => names.includes(place) && failing >= scaled.low)
		: null;
	const describes = `Share of drives that fail at the worst combinations of limits; at most ${levelWords(limit)} may. ${rows.map(({ says }) => says).join('. ')}.`;
	return {
		describes,
		spec: intervalRows(
			{
				name: 'combinations',
				rows: rows.map((row) => ({ ...row, low: Math.max(row.low, scaled.low) })),
				ghost: before,
				fields: { row: 'place', value: 'failing', low: 'low', high: 'high', open: 'none', openAt: ['high'] },
				order: [...new Set(names)],
				height: 64 + 34 * worst.length,
				scale: scaled.scale,
				axis: { ...scaled.axis, title: 'share of drives that fail' },
				limit: { at: limit, words: `${levelWords(limit)} may fail` },
			},
			theme,
			describes,
		),
	};
}

const rowsOf = (combinations: readonly CombinationResult[], ids: readonly string[]) =>
	combinations.flatMap((one) =>
		choiceNames.map((choice) => {
			const { share, low, high } = one.choices[choice].verdict;
			const place = combinationSigns(one, ids);
			return {
				place,
				choice,
				failing: 1 - share,
				low: 1 - high,
				high: 1 - low,
				none: share === 1,
				says: `${capital(choiceWords[choice])}, ${place}: ${percent(1 - share)} fail (${span(percent(1 - high, 'down'), percent(1 - low, 'up'))})`,
			};
		}),
	);
