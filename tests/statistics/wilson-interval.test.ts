import { describe, expect, it } from 'vitest';
import { wilsonInterval, wilsonLower } from '../../shared/statistics/wilson-interval.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('Wilson interval', () => {
	it('26 of 200 has the one-sided 95 % lower limit 0.09577', () => {
		// NIST e-Handbook 7.2.4.1 takes z as 1.645: 0.0957701, recomputed
		expect(Math.abs(wilsonLower(26, 200) - 0.0957701)).toBeLessThan(5e-6);
	});

	// Newcombe 1998, Statistics in Medicine 17:857–872, Table I, 95 %
	it.each([
		[81, 263, 0.2553, 0.3662],
		[15, 148, 0.0624, 0.1605],
		[0, 20, 0, 0.1611],
		[1, 29, 0.0061, 0.1718],
	])('%s of %s is %s to %s (published, 4 digits)', (x, n, low, high) => {
		const interval = wilsonInterval(x, n);
		expect(interval.low).toBeCloseTo(low, 4);
		expect(interval.high).toBeCloseTo(high, 4);
	});

	it('covers 94 to 96 % on average over shares where ten or more successes and failures are expected', () => {
		for (const trials of [30, 100, 1000]) {
			const limits = Array.from({ length: trials + 1 }, (_, x) => wilsonInterval(x, trials));
			let sum = 0;
			let count = 0;
			for (let p = 10 / trials; p <= 1 - 10 / trials; p += 0.00317) {
				sum += binomialCoverage(trials, p, (x) => (limits[x]?.low ?? 1) <= p && p <= (limits[x]?.high ?? 0)).coverage;
				count++;
			}
			expect(sum / count).toBeGreaterThan(0.94);
			expect(sum / count).toBeLessThan(0.96);
		}
	});

	it('0 of n starts at 0, n of n ends at 1, 0 of 0 is [0, 1]', () => {
		expect(wilsonInterval(0, 7).low).toBe(0);
		expect(wilsonInterval(7, 7).high).toBe(1);
		expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
		expect(() => wilsonInterval(3, 2)).toThrow(RangeError);
	});
});
