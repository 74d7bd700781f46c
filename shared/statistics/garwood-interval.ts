import { inverseGamma } from '../maths/inverse-gamma.ts';
import { checkLevel, checkWhole, type Interval } from './interval.ts';

/**
 * Exact two-sided interval for the mean of a Poisson count: from the (1 − level)/2
 * quantile of Gamma(x) to the (1 + level)/2 quantile of Gamma(x + 1). A count of
 * 0 has the lower limit 0.
 *
 * Source: F. Garwood, Biometrika 28 (1936) 437–442.
 */
export function garwoodInterval(count: number, level = 0.95): Interval {
	checkWhole(count, 'count');
	checkLevel(level);
	return {
		low: count === 0 ? 0 : inverseGamma((1 - level) / 2, count),
		high: inverseGamma((1 + level) / 2, count + 1),
	};
}
