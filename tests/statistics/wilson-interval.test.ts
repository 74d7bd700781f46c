import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../shared/statistics/wilson-interval.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('Wilson interval', () => {
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
