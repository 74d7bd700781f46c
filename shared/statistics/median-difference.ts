import type { Interval } from './interval.ts';
import { orderStatisticInterval } from './order-statistic-interval.ts';
import { quantileOfSorted } from './quantile.ts';

export interface MedianDifference {
	/** Median of first − second over the pairs; NaN without pairs, ±∞ where most of one side was lost. */
	readonly median: number;
	/** Limits of the median; −∞ or +∞ where too few pairs, or lost ones, leave a side open. */
	readonly interval: Interval;
	/** Pairs in which the first is smaller, the second is, and neither. */
	readonly firstSmaller: number;
	readonly secondSmaller: number;
	readonly ties: number;
}

/**
 * Median of paired differences with its order-statistic interval, which assumes
 * nothing of their distribution. +∞ is a lost unit: worse than any value, and
 * equal to another lost one.
 */
export function medianDifference(first: ArrayLike<number>, second: ArrayLike<number>, level = 0.95): MedianDifference {
	if (first.length !== second.length) throw new RangeError(`${first.length} values paired with ${second.length}`);
	const differences = new Float64Array(first.length);
	let firstSmaller = 0;
	let secondSmaller = 0;
	for (let i = 0; i < differences.length; i++) {
		const a = first[i] as number;
		const b = second[i] as number;
		if (Number.isNaN(a) || Number.isNaN(b)) throw new RangeError(`pair ${i} holds NaN`);
		differences[i] = a === b ? 0 : a - b;
		if (a < b) firstSmaller++;
		else if (b < a) secondSmaller++;
	}
	differences.sort();
	const { low, high } = orderStatisticInterval(differences, 0.5, level);
	return {
		median: medianOf(differences),
		interval: { low, high },
		firstSmaller,
		secondSmaller,
		ties: differences.length - firstSmaller - secondSmaller,
	};
}

/** Middle value; of an even number with −∞ or +∞ among the middle two, the finite one (0 between −∞ and +∞). */
function medianOf(sorted: Float64Array): number {
	const low = sorted[Math.floor((sorted.length - 1) / 2)];
	const high = sorted[Math.floor(sorted.length / 2)];
	if (low === undefined || high === undefined) return Number.NaN;
	if (Number.isFinite(low) && Number.isFinite(high)) return quantileOfSorted(sorted, 0.5);
	if (low === high) return low;
	return Number.isFinite(low) ? low : Number.isFinite(high) ? high : 0;
}
