import { inverseNormal } from '../maths/inverse-normal.ts';
import { checkCounts, checkLevel, type Interval } from './interval.ts';

/**
 * Two-sided score interval for a binomial share: all p with
 * |x/n − p| ≤ z √(p (1 − p)/n). Never leaves [0, 1]; 0 of 0 is [0, 1].
 *
 * Source: E. B. Wilson, JASA 22 (1927) 209–212.
 */
export function wilsonInterval(successes: number, trials: number, level = 0.95): Interval {
	checkLevel(level);
	const confidence = (1 + level) / 2;
	return {
		low: wilsonLower(successes, trials, confidence),
		high: 1 - wilsonLower(trials - successes, trials, confidence),
	};
}

/** One-sided lower limit; the upper one of x of n is 1 − the lower one of n − x of n. */
export function wilsonLower(successes: number, trials: number, confidence = 0.95): number {
	checkCounts(successes, trials);
	checkLevel(confidence);
	return scoreLower(successes, trials, inverseNormal(confidence));
}

/** (2x + z² − z √(z² + 4x(1 − x/n))) / 2(n + z²). */
function scoreLower(successes: number, trials: number, z: number): number {
	if (successes === 0) return 0;
	const root = z * Math.sqrt(z * z + 4 * successes * (1 - successes / trials));
	return Math.max(0, (2 * successes + z * z - root) / (2 * (trials + z * z)));
}
