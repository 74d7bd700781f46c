import { checkLevel } from './interval.ts';

/**
 * Sample quantile of values in rising order, linear between the order statistics
 * that enclose position (n − 1)p (type 7 of Hyndman and Fan, The American
 * Statistician 50 (1996) 361–365). Between a finite value and +∞ (a lost unit)
 * it is +∞, so that losses never flatter; NaN without values.
 */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
	if (p !== 0 && p !== 1) checkLevel(p, 'quantile');
	if (sorted.length === 0) return Number.NaN;
	const position = (sorted.length - 1) * p;
	const below = Math.floor(position);
	const low = sorted[below] as number;
	const high = sorted[Math.min(below + 1, sorted.length - 1)] as number;
	const share = position - below;
	if (share === 0 || low === high) return low;
	if (high === Infinity || low === -Infinity) return high === Infinity ? Infinity : low;
	return low + share * (high - low);
}
