import { expect, it } from 'vitest';
import { medianDifference } from '../../shared/statistics/median-difference.ts';

it('of ten differences 1 … 10 is 5.5 with limits 2 and 9 (ranks 2 and 9, 97.85 %)', () => {
	const first = [6, 12, 8, 14, 10, 16, 12, 18, 14, 20];
	const second = [5, 2, 5, 5, 5, 10, 5, 10, 5, 16];
	// differences 1 10 3 9 5 6 7 8 9 4
	const { median, interval, firstSmaller, secondSmaller, ties } = medianDifference(first, second);
	expect(median).toBe(6.5);
	expect(interval).toEqual({ low: 3, high: 9 });
	expect([firstSmaller, secondSmaller, ties]).toEqual([0, 10, 0]);
});

it('swapping the choices turns every sign', () => {
	const a = [1, 5, Infinity, 2, 8, 4, 4];
	const b = [2, 3, 4, Infinity, 1, 4, 7];
	const there = medianDifference(a, b);
	const back = medianDifference(b, a);
	expect(back.median).toBeCloseTo(-there.median, 15);
	expect(back.interval.low).toBe(-there.interval.high);
	expect([back.firstSmaller, back.secondSmaller, back.ties]).toEqual([
		there.secondSmaller,
		there.firstSmaller,
		there.ties,
	]);
});

it('a unit lost by both is a tie, lost by one an infinite difference, and mostly lost an infinite median', () => {
	expect(medianDifference([Infinity], [Infinity])).toMatchObject({ median: 0, ties: 1 });
	expect(medianDifference([Infinity, 1, 1], [1, 1, 2])).toMatchObject({
		median: 0,
		firstSmaller: 1,
		secondSmaller: 1,
		ties: 1,
	});
	expect(medianDifference([Infinity, Infinity, 1], [1, 1, 2]).median).toBe(Infinity);
	expect(medianDifference([Infinity, 1], [1, 2]).median).toBe(-1);
	expect(medianDifference([Infinity, 1], [1, Infinity]).median).toBe(0);
});

it('without pairs the median is NaN and unbounded; NaN and unequal lengths are refused', () => {
	expect(medianDifference([], [])).toMatchObject({
		median: Number.NaN,
		interval: { low: -Infinity, high: Infinity },
		ties: 0,
	});
	expect(() => medianDifference([1], [])).toThrow(RangeError);
	expect(() => medianDifference([Number.NaN], [1])).toThrow(RangeError);
});
