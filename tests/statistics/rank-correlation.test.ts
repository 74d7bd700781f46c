import { expect, it } from 'vitest';
import { rankCorrelation } from '../../shared/statistics/rank-correlation.ts';

it('of ten pairs is −29/165', () => {
	// worked example of an encyclopaedia's article on Spearman's coefficient, recomputed: Σd² = 194
	const iq = [106, 86, 100, 101, 99, 103, 97, 113, 112, 110];
	const hours = [7, 0, 27, 50, 28, 29, 20, 12, 6, 17];
	expect(rankCorrelation(iq, hours)).toBeCloseTo(-29 / 165, 14);
});

it('with a tie is 0.9486833', () => {
	expect(rankCorrelation([1, 2, 2, 3], [1, 3, 2, 4])).toBeCloseTo(0.9486833, 7);
});

it('is 1 for any rising relation, lost units last; NaN where a side is all ties or too short', () => {
	expect(rankCorrelation([1, 2, 3, Infinity], [1, 8, 27, 1e9])).toBeCloseTo(1, 14);
	expect(rankCorrelation([1, 1, 1], [1, 2, 3])).toBeNaN();
	expect(rankCorrelation([1], [1])).toBeNaN();
	expect(() => rankCorrelation([1, Number.NaN], [1, 2])).toThrow(RangeError);
	expect(() => rankCorrelation([1, 2], [1])).toThrow(RangeError);
});
