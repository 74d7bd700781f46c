import type { Interval } from './interval.ts';
import { orderStatisticInterval } from './order-statistic-interval.ts';
import { correlation, pairedLimits } from './paired-limits.ts';
import { quantileOfSorted } from './quantile.ts';

export interface Change extends Interval {
	readonly before: number;
	readonly after: number;
	/** after − before; ±∞ where one of them is lost, NaN where both are. */
	readonly change: number;
}

/**
 * Change of the p quantile between two states of the same units (or, not
 * `paired`, of different ones). A sample quantile varies as the share of units
 * at or below it does (R. R. Bahadur, Annals of Mathematical Statistics 37 (1966)
 * 577–580), so the correlation of the two quantiles is that of the units'
 * indicators; the limits of each are order statistics, put together by
 * `pairedLimits`.
 *
 * Coverage of 95 % limits: 97 to 99 % for 50 to 400 units, correlated 0 to 0.95
 * (tests/statistics/quantile-change.test.ts); order statistics are wide.
 */
export function quantileChange(
	before: ArrayLike<number>,
	after: ArrayLike<number>,
	p: number,
	{ level = 0.95, paired = true }: { readonly level?: number; readonly paired?: boolean } = {},
): Change {
	const first = estimate(before, p, level);
	const second = estimate(after, p, level);
	const change = second.value - first.value;
	if (!Number.isFinite(change)) {
		return { before: first.value, after: second.value, change, low: -Infinity, high: Infinity };
	}
	const below = (values: ArrayLike<number>, limit: number): number[] =>
		Array.from(values, (value) => (value <= limit ? 1 : 0));
	const r = paired ? correlation(below(before, first.value), below(after, second.value)) : 0;
	return { before: first.value, after: second.value, change, ...pairedLimits(first, second, r) };
}

function estimate(values: ArrayLike<number>, p: number, level: number) {
	const sorted = Float64Array.from(values).sort();
	const { low, high } = orderStatisticInterval(sorted, p, level);
	return { value: quantileOfSorted(sorted, p), low, high };
}
