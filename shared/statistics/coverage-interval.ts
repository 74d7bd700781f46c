import { checkLevel, type Interval } from './interval.ts';

/**
 * Coverage interval of a quantity from M values in rising order: the share
 * `probability` of what the quantity may be, not a confidence interval for a
 * mean. `symmetric` leaves the same share on either side; `shortest` is the
 * narrowest of all. With q = ⌊pM + ½⌋ it runs from the r-th to the (r + q)-th
 * value; null where M is too small for that (q = M).
 *
 * Source: JCGM 101:2008, 7.7.
 */
export function coverageInterval(
	sorted: ArrayLike<number>,
	probability = 0.95,
	kind: 'symmetric' | 'shortest' = 'symmetric',
): Interval | null {
	checkLevel(probability, 'coverage probability');
	const count = sorted.length;
	const inside = Math.floor(probability * count + 0.5);
	if (count - inside < 1) return null;
	const rank = kind === 'symmetric' ? Math.floor((count - inside + 1) / 2) : shortestRank(sorted, inside);
	return { low: sorted[rank - 1] as number, high: sorted[rank + inside - 1] as number };
}

/** The r that minimises y(r + q) − y(r), the lowest of equals; +∞ values never make a short interval. */
function shortestRank(sorted: ArrayLike<number>, inside: number): number {
	let best = 1;
	let least = Infinity;
	for (let rank = 1; rank <= sorted.length - inside; rank++) {
		const length = (sorted[rank + inside - 1] as number) - (sorted[rank - 1] as number);
		if (length < least) {
			least = length;
			best = rank;
		}
	}
	return best;
}
