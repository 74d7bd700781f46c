import { checkLevel } from './interval.ts';

/**
 * Sample quantile of values in rising order, about median-unbiased whatever the
 * distribution: linear between the order statistics around place
 * (n + 1/3) p + 1/3, counted from 1 (type 8 of R. J. Hyndman and Y. Fan, The
 * American Statistician 50 (1996) 361–365). With n values it lies above the true
 * quantile as often as below, so that a judgement against a limit does not drift
 * with n. Beyond the outermost values it is the outermost; NaN without values.
 */
export function medianUnbiasedQuantile(sorted: ArrayLike<number>, p: number): number {
	checkLevel(p, 'quantile');
	const count = sorted.length;
	if (count === 0) return Number.NaN;
	const place = Math.min(count, Math.max(1, (count + 1 / 3) * p + 1 / 3));
	const below = Math.floor(place);
	const low = sorted[below - 1] as number;
	const high = sorted[Math.min(below, count - 1)] as number;
	// ∞ − ∞ and 0 · ∞ are no numbers
	return place === below || low === high ? low : low + (place - below) * (high - low);
}
