import type { Verdict } from '../statistics/verdict.ts';
import { chancePerHour, percent } from '../words/figures.ts';
import { errorWords } from './grade-words.ts';
import type { CaseChoice } from './result.ts';

/** One run's figures for one choice, in words; the lower limit is the one that a grade was judged with where it was. */
export function gradeCells(
	{ share, low, unitError, crossingsPerHour }: CaseChoice,
	judged: Pick<Verdict, 'low'> | null,
) {
	return {
		share: percent(share),
		low: percent(judged?.low ?? low, 'down'),
		median: errorWords(unitError.median),
		worse: errorWords(unitError.q95),
		hourly: chancePerHour(crossingsPerHour),
	};
}
