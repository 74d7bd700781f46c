import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { checkLevel, checkWhole, type Interval } from './interval.ts';

/** Ranks from 1 to n; 0 and n + 1 stand for "not bounded on that side". */
export interface Ranks {
	readonly low: number;
	readonly high: number;
	/** Probability that the two order statistics enclose the quantile; at least the level asked. */
	readonly confidence: number;
}

/**
 * Ranks of the two order statistics that enclose the p quantile of any
 * continuous distribution. With B ~ Binomial(n, p): low is the largest r with
 * P(B ≤ r − 1) ≤ α/2, high the smallest s with P(B ≥ s) ≤ α/2.
 *
 * Source: H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., 7.1.
 */
export function orderStatisticRanks(count: number, p: number, level = 0.95): Ranks {
	checkWhole(count, 'sample size');
	checkLevel(p, 'quantile');
	checkLevel(level);
	if (count === 0) return { low: 0, high: 1, confidence: 1 };
	const tail = (1 - level) / 2;
	const below = (rank: number): number => (rank <= 0 ? 0 : binomialCdf(rank - 1, count, p));
	// P(B ≥ s) counted as P(n − B ≤ n − s), so that small tails keep their digits
	const above = (rank: number): number => (rank > count ? 0 : binomialCdf(count - rank, count, 1 - p));
	const low = lastWhere((rank) => below(rank) <= tail, 0, count);
	const high = lastWhere((rank) => above(count + 1 - rank) <= tail, 0, count);
	return { low, high: count + 1 - high, confidence: 1 - below(low) - above(count + 1 - high) };
}

/**
 * Interval for the p quantile from values in rising order, lost units' +∞ among
 * them. A side that too few values bound is −∞ or +∞.
 */
export function orderStatisticInterval(
	sorted: ArrayLike<number>,
	p: number,
	level = 0.95,
): Interval & { ranks: Ranks } {
	const ranks = orderStatisticRanks(sorted.length, p, level);
	return {
		low: ranks.low === 0 ? -Infinity : (sorted[ranks.low - 1] as number),
		high: ranks.high > sorted.length ? Infinity : (sorted[ranks.high - 1] as number),
		ranks,
	};
}

/** Largest whole number in [from, to] that passes; `from` passes, and none passes above one that does not. */
function lastWhere(passes: (value: number) => boolean, from: number, to: number): number {
	let low = from;
	let high = to;
	while (low < high) {
		const middle = Math.ceil((low + high) / 2);
		if (passes(middle)) low = middle;
		else high = middle - 1;
	}
	return low;
}
