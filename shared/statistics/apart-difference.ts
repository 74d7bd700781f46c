import type { Change } from './quantile-change.ts';

/** A figure with its interval. */
interface Bounded {
	readonly value: number;
	/** Null where too few units bound it. */
	readonly interval: readonly [number, number] | null;
}

/**
 * Change of a figure whose units are not at hand on either side, from both
 * figures' own intervals: square-and-add, as for independent figures. Where both
 * come from the same units, as positively correlated ones do, it is too wide
 * rather than too narrow. Without an interval on either side it is unbounded.
 *
 * Source: G. Y. Zou, A. Donner, Statistics in Medicine 27 (2008) 1693–1702
 * (from memory); for shares it is R. G. Newcombe's (share-difference.ts).
 */
export function apartDifference(before: Bounded, after: Bounded): Change {
	const ends = { before: before.value, after: after.value };
	const change = after.value - before.value;
	if (!before.interval || !after.interval || !Number.isFinite(change))
		return { ...ends, change, low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
	const [beforeLow, beforeHigh] = before.interval;
	const [afterLow, afterHigh] = after.interval;
	return {
		...ends,
		change,
		low: change - reach(after.value - afterLow, beforeHigh - before.value),
		high: change + reach(afterHigh - after.value, before.value - beforeLow),
	};
}

const reach = (one: number, other: number): number => Math.sqrt(one * one + other * other);
