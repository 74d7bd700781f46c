import { expect, it } from 'vitest';
import { garwoodInterval } from '../../shared/statistics/garwood-interval.ts';

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
