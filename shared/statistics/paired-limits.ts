import type { Interval } from './interval.ts';

/** An estimate with its own limits. */
export interface Estimate extends Interval {
	readonly value: number;
}

/**
 * Limits of `after − before` from the limits of each and the correlation r of
 * the two estimates: with a the reach of `after` to the side and b that of
 * `before` to the other, the difference reaches √(a² − 2rab + b²). Infinite where
 * either is open on the side that counts.
 *
 * Source: G. Y. Zou and A. Donner, Statistics in Medicine 27 (2008) 1693–1702
 * (recovery of variances from limits; 1698 for dependent estimates).
 */
export function pairedLimits(before: Estimate, after: Estimate, correlation: number): Interval {
	const reach = (a: number, b: number): number =>
		Number.isFinite(a) && Number.isFinite(b)
			? Math.sqrt(Math.max(0, a * a - 2 * correlation * a * b + b * b))
			: Number.POSITIVE_INFINITY;
	const change = after.value - before.value;
	return {
		low: change - reach(after.value - after.low, before.high - before.value),
		high: change + reach(after.high - after.value, before.value - before.low),
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
