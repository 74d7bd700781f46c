import { expect, test } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { bernsteinLimits } from '../../shared/statistics/bernstein-limits.ts';

test('ten ones among a hundred values up to 2 lie below 0.434 with 95 % confidence', () => {
	// theorem 4, worked apart: s² = 9/99, ln 40 = 3.688879; √(2·0.0909091·3.688879/100) = 0.081896, 7·2·3.688879/297 = 0.173887
	const values = Array.from({ length: 100 }, (_, i) => (i < 10 ? 1 : 0));
	const { low, high } = bernsteinLimits(values, 2);
	expect(high).toBeCloseTo(0.1 + 0.081896 + 0.173887, 5);
	expect(low).toBe(0);
});

test('none of 4000 values up to 6.67 leaves at most 1.44 %; a single value leaves everything', () => {
	expect(bernsteinLimits(new Float64Array(4000), 1 / 0.15).high).toBeCloseTo((7 * 3.6888795) / 0.15 / 3 / 3999, 7);
	expect(bernsteinLimits([3], 5)).toEqual({ low: 0, high: 5 });
	expect(() => bernsteinLimits([1, 6], 5)).toThrow(RangeError);
	expect(() => bernsteinLimits([1, 2], 5, 1)).toThrow(RangeError);
});

test('of values of which 1 in 500 is 5, the upper limit lies below the mean in no more than 1 of 20 sets', () => {
	let missed = 0;
	for (let set = 0; set < 400; set++) {
		const source = stream('bernstein', 'test', set);
		const values = Float64Array.from({ length: 300 }, () => (source.double() < 0.002 ? 5 : 0));
		if (bernsteinLimits(values, 5).high < 0.01) missed++;
	}
	expect(missed).toBeLessThanOrEqual(20);
});
