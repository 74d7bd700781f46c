import fc from 'fast-check';
import { quantileSorted } from 'simple-statistics';
import { expect, it } from 'vitest';
import { quantileOfSorted } from '../../shared/statistics/quantile.ts';

it('agrees with simple-statistics (type 7) at 0, ¼, ½, 1 of the same data', () => {
	// its quantileSorted takes the upper of two for broken positions, but averages whole ones: compare where both are exact
	const values = [1, 2, 3, 4, 5];
	for (const p of [0, 0.25, 0.5, 1]) expect(quantileOfSorted(values, p)).toBe(quantileSorted(values, p));
});

it('Hyndman and Fan type 7: the 0.4 quantile of 1, 2, 4, 8 is 2.4', () => {
	// position 3 · 0.4 = 1.2 between 2 and 4
	expect(quantileOfSorted([1, 2, 4, 8], 0.4)).toBeCloseTo(2.4, 14);
});

it('lies between minimum and maximum and rises with p', () => {
	fc.assert(
		fc.property(
			fc.array(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), { minLength: 1 }),
			(list) => {
				const sorted = list.sort((a, b) => a - b);
				let last = sorted[0] as number;
				for (let i = 0; i <= 20; i++) {
					const q = quantileOfSorted(sorted, i / 20);
					expect(q).toBeGreaterThanOrEqual(last - 1e-6);
					last = q;
				}
				expect(last).toBe(sorted.at(-1));
			},
		),
		{ seed: 1, numRuns: 50 },
	);
});

it('between a finite value and a lost unit it is +∞, of nothing NaN, and p outside [0, 1] is refused', () => {
	expect(quantileOfSorted([1, 2, Infinity], 0.6)).toBe(Infinity);
	expect(quantileOfSorted([1, 2, Infinity], 0.5)).toBe(2);
	expect(quantileOfSorted([Infinity, Infinity], 0.5)).toBe(Infinity);
	expect(quantileOfSorted([-Infinity, 3], 0.5)).toBe(-Infinity);
	expect(quantileOfSorted([], 0.5)).toBeNaN();
	expect(() => quantileOfSorted([1], 1.5)).toThrow(RangeError);
	expect(() => quantileOfSorted([1], Number.NaN)).toThrow(RangeError);
});
