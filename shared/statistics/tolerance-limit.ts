import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { checkLevel, checkWhole } from './interval.ts';

/**
 * Sample size from which order statistics are tolerance limits: the smallest n
 * for which, whatever the distribution, they enclose a share `cover` of it with
 * the given confidence. At least `beyond` of n values must be expected outside:
 * P(B ≥ beyond) ≥ C, B ~ Binomial(n, 1 − cover).
 *
 * @param beyond k for a one-sided limit at the k-th value from the end; 2k for
 *   limits at both k-th values
 *
 * Source: S. S. Wilks, Annals of Mathematical Statistics 12 (1941) 91–96.
 */
export function toleranceLimitUnits(cover: number, confidence: number, beyond = 1): number {
	checkLevel(cover, 'share covered');
	checkLevel(confidence);
	checkWhole(beyond, 'values beyond', 1);
	const enough = (units: number): boolean => binomialCdf(beyond - 1, units, 1 - cover) <= 1 - confidence;
	let high = beyond;
	while (!enough(high)) high *= 2;
	let low = Math.floor(high / 2);
	while (high - low > 1) {
		const middle = Math.floor((low + high) / 2);
		if (enough(middle)) high = middle;
		else low = middle;
	}
	return high;
}
