import type { Estimate } from './paired-limits.ts';
import { pairedLimits } from './paired-limits.ts';
import type { Change } from './quantile-change.ts';

/** A figure with its interval. */
interface Bounded {
	readonly value: number;
	/** Null where too few units bound it. */
	readonly interval: readonly [number, number] | null;
}

/**
 * Change of a figure whose units are not at hand, from both figures' own
 * intervals, as of different units. Where they were the same ones, positively
 * correlated, limits are wider than need be. Without an interval on either side
 * there are none.
 */
export function apartDifference(before: Bounded, after: Bounded): Change {
	const change = after.value - before.value;
	const limits = Number.isFinite(change)
		? pairedLimits(estimate(before), estimate(after), 0)
		: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
	return { before: before.value, after: after.value, change, ...limits };
}

/** One that nothing bounds where there are no limits. */
function estimate({ value, interval }: Bounded): Estimate {
	const [low, high] = interval ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
	return { value, low, high };
}
