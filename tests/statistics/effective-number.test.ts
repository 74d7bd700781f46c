import { expect, test } from 'vitest';
import { effectiveNumber } from '../../shared/statistics/effective-number.ts';

test('equal values count in full, one of five equals 1, and 1, 2, 3 make 36/14', () => {
	expect(effectiveNumber([0.2, 0.2, 0.2, 0.2])).toEqual({ effective: 4, largestShare: 0.25, largest: 0 });
	expect(effectiveNumber([0, 0, 7, 0, 0])).toEqual({ effective: 1, largestShare: 1, largest: 2 });
	expect(effectiveNumber([1, 2, 3]).effective).toBeCloseTo(36 / 14, 12);
	expect(effectiveNumber([1, 2, 3]).largestShare).toBeCloseTo(0.5, 12);
});

test('probabilities of 1e−250, whose squares underflow, keep their number', () => {
	expect(effectiveNumber([1e-250, 1e-250, 1e-250]).effective).toBeCloseTo(3, 12);
});

test('without a value above 0 it is 0, and no value is the largest', () => {
	expect(effectiveNumber([0, 0])).toEqual({ effective: 0, largestShare: Number.NaN, largest: -1 });
	expect(effectiveNumber([]).effective).toBe(0);
	expect(() => effectiveNumber([0.1, -0.1])).toThrow('value 1');
});
