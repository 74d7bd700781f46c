import { inverseBeta } from '../maths/inverse-beta.ts';
import { checkCounts, checkLevel, type Interval } from './interval.ts';

/**
 * Exact two-sided interval for a binomial share: each limit leaves at most
 * (1 − level)/2. 0 of n has the lower limit 0, n of n the upper limit 1, 0 of 0
 * is [0, 1].
 *
 * Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404–413.
 */
export function clopperPearson(successes: number, trials: number, level = 0.95): Interval {
	checkLevel(level);
	const confidence = (1 + level) / 2;
	return {
		low: clopperPearsonLower(successes, trials, confidence),
		high: clopperPearsonUpper(successes, trials, confidence),
	};
}

/** Exact one-sided lower limit: the p with P(X ≥ x | p) = 1 − C, the (1 − C) quantile of Beta(x, n − x + 1). */
export function clopperPearsonLower(successes: number, trials: number, confidence = 0.95): number {
	checkCounts(successes, trials);
	checkLevel(confidence);
	return successes === 0 ? 0 : inverseBeta(1 - confidence, successes, trials - successes + 1);
}

/** Exact one-sided upper limit: the p with P(X ≤ x | p) = 1 − C, the C quantile of Beta(x + 1, n − x). */
export function clopperPearsonUpper(successes: number, trials: number, confidence = 0.95): number {
	checkCounts(successes, trials);
	checkLevel(confidence);
	return successes === trials ? 1 : inverseBeta(confidence, successes + 1, trials - successes);
}
