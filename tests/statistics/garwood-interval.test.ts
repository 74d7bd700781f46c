import { expect, it } from 'vitest';
import { garwoodInterval } from '../../shared/statistics/garwood-interval.ts';

// F. Garwood, Biometrika 28 (1936): from memory, recomputed
it.each([
	[0, 0, 3.68888],
	[1, 0.025318, 5.571643],
	[2, 0.242209, 7.224688],
	[3, 0.618672, 8.767273],
	[5, 1.623486, 11.668332],
	[10, 4.795389, 18.390356],
	[20, 12.21652, 30.888378],
])('a count of %s has the exact 95 %% interval %s to %s for its mean', (count, low, high) => {
	const interval = garwoodInterval(count);
	expect(interval.low).toBeCloseTo(low, 5);
	expect(interval.high).toBeCloseTo(high, 5);
});

it('covers at least 95 % for means from 0.05 to 30 (by summation)', () => {
	const limits = Array.from({ length: 120 }, (_, count) => garwoodInterval(count));
	for (let mean = 0.05; mean < 30; mean += 0.083) {
		let term = Math.exp(-mean);
		let covered = 0;
		for (const [count, { low, high }] of limits.entries()) {
			if (low <= mean && mean <= high) covered += term;
			term *= mean / (count + 1);
		}
		expect(covered).toBeGreaterThanOrEqual(0.95 - 1e-9);
	}
});

it('refuses what is no count', () => {
	expect(() => garwoodInterval(-1)).toThrow(RangeError);
	expect(() => garwoodInterval(1.5)).toThrow(RangeError);
});
