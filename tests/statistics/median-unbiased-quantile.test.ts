import { expect, test } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { medianUnbiasedQuantile } from '../../shared/statistics/median-unbiased-quantile.ts';

test('quantiles of 1, 2, …, 10 lie at (10 + 1/3) p + 1/3: 2.9167 for 25 %, 5.5 for 50 %, 9.1167 for 85 %', () => {
	// type 8 of Hyndman and Fan, The American Statistician 50 (1996) 361–365 (formula from memory)
	const values = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
	expect(medianUnbiasedQuantile(values, 0.25)).toBeCloseTo(2 + 11 / 12, 12);
	expect(medianUnbiasedQuantile(values, 0.5)).toBe(5.5);
	expect(medianUnbiasedQuantile(values, 0.85)).toBeCloseTo(9 + 7 / 60, 12);
});

test.each([24, 48, 96, 192])('of %i values the 95 %% quantile lies above the true one half the time', (count) => {
	const next = stream('median-unbiased', 'test', count);
	const replicates = 4000;
	let above = 0;
	for (let i = 0; i < replicates; i++) {
		const values = Float64Array.from({ length: count }, () => next.double()).sort();
		if (medianUnbiasedQuantile(values, 0.95) > 0.95) above++;
	}
	// four standard errors of a share of ½ are 0.032; the formula is good to about 0.01 at n (1 − p) ≥ 1
	expect(Math.abs(above / replicates - 0.5)).toBeLessThan(0.04);
});

test('beyond the outermost values it is the outermost; of one value it is that, of none NaN', () => {
	expect(medianUnbiasedQuantile([1, 2, 3], 0.99)).toBe(3);
	expect(medianUnbiasedQuantile([1, 2, 3], 0.01)).toBe(1);
	expect(medianUnbiasedQuantile([4], 0.5)).toBe(4);
	expect(medianUnbiasedQuantile([], 0.5)).toBeNaN();
	expect(() => medianUnbiasedQuantile([1], 1)).toThrow('quantile');
});
