import type { Interval } from './interval.ts';

/** An estimate with its own limits. */
export interface Estimate extends Interval {
	readonly value: number;
}

/**
 * Limits of `after − before` from the limits of each and the correlation r of
 * the two estimates. To a side, a is the reach of `after` and b the opposite one
 * of `before`: the difference reaches √(a² − 2rab + b²). What both share (r > 0)
 * moves them to the same side, though, where `before` reaches c; so with r > 0 and c known the
 * reach is √[r (a − c)² + (1 − r)(a² + b²)], which is the same where limits are
 * symmetric, and nothing where both are the same sample. Infinite where an
 * estimate is open on a side that counts.
 *
 * Source: G. Y. Zou and A. Donner, Statistics in Medicine 27 (2008) 1693–1702
 * (recovery of variances from limits); the second form is this project's, its
 * coverage is in tests/statistics/quantile-change.test.ts.
 */
export function pairedLimits(before: Estimate, after: Estimate, correlation: number): Interval {
	const reach = (a: number, b: number, c: number): number => {
		if (!Number.isFinite(a) || !Number.isFinite(b)) return Infinity;
		return correlation > 0 && Number.isFinite(c)
			? Math.sqrt(correlation * (a - c) * (a - c) + (1 - correlation) * (a * a + b * b))
			: Math.sqrt(a * a - 2 * correlation * a * b + b * b);
	};
	const change = after.value - before.value;
	const [lowBefore, highBefore] = [before.value - before.low, before.high - before.value];
	return {
		low: change - reach(after.value - after.low, highBefore, lowBefore),
		high: change + reach(after.high - after.value, lowBefore, highBefore),
	};
}

/** Pearson's correlation of two equally long lists; 0 where either does not vary. */
export function correlation(first: ArrayLike<number>, second: ArrayLike<number>): number {
	const n = first.length;
	if (second.length !== n) throw new RangeError(`${n} values paired with ${second.length}`);
	let sumA = 0;
	let sumB = 0;
	for (let i = 0; i < n; i++) {
		sumA += first[i] as number;
		sumB += second[i] as number;
	}
	let ab = 0;
	let aa = 0;
	let bb = 0;
	for (let i = 0; i < n; i++) {
		const a = (first[i] as number) - sumA / n;
		const b = (second[i] as number) - sumB / n;
		ab += a * b;
		aa += a * a;
		bb += b * b;
	}
	const scale = Math.sqrt(aa) * Math.sqrt(bb);
	return scale > 0 ? Math.max(-1, Math.min(1, ab / scale)) : 0;
}
