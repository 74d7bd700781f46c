import { describe, expect, it } from 'vitest';
import { clopperPearson, clopperPearsonLower, clopperPearsonUpper } from '../../shared/statistics/clopper-pearson.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('Clopper–Pearson', () => {
	it('4 of 20 at 90 % is 0.071354 to 0.401028', () => {
		// NIST e-Handbook 7.2.4.1 prints 0.071354 and 0.401029; recomputed 0.07135388, 0.40102812
		const { low, high } = clopperPearson(4, 20, 0.9);
		expect(low).toBeCloseTo(0.07135388, 8);
		expect(high).toBeCloseTo(0.40102812, 8);
	});

	// R. G. Newcombe, Statistics in Medicine 17 (1998) 857–872, Table I, 95 %
	it.each([
		[81, 263, 0.2527, 0.3676],
		[15, 148, 0.0578, 0.1617],
		[0, 20, 0, 0.1684],
		[1, 29, 0.0009, 0.1776],
	])('%s of %s is %s to %s (published, 4 digits)', (x, n, low, high) => {
		const interval = clopperPearson(x, n);
		expect(interval.low).toBeCloseTo(low, 4);
		expect(interval.high).toBeCloseTo(high, 4);
	});

	// 1 − 0.05^(1/n): the exact figures behind the rule of three (Hanley and Lippman-Hand 1983), from memory and recomputed
	it.each([
		[10, 0.258866],
		[30, 0.095034],
		[100, 0.029513],
		[1000, 0.00299125],
		[10_000, 2.995284e-4],
	])('0 of %s has the one-sided 95 %% upper limit %s', (n, high) => {
		expect(Math.abs(clopperPearsonUpper(0, n) / high - 1)).toBeLessThan(5e-6);
		expect(clopperPearsonLower(n, n)).toBeCloseTo(1 - high, 6);
	});

	it('0 of 1000 has the two-sided upper limit 0.00368208; 0 of 0 is [0, 1]; n of n mirrors 0 of n', () => {
		expect(clopperPearson(0, 1000).high).toBeCloseTo(0.00368208, 8);
		expect(clopperPearson(0, 0)).toEqual({ low: 0, high: 1 });
		expect(clopperPearson(50, 50).low).toBeCloseTo(1 - clopperPearson(0, 50).high, 14);
		expect(clopperPearson(50, 50).high).toBe(1);
	});

	it('covers at least 95 % at every share from 0.001 to 0.999 for 1 to 1000 trials (by summation)', () => {
		for (const trials of [1, 2, 5, 10, 30, 100, 1000]) {
			const limits = Array.from({ length: trials + 1 }, (_, x) => clopperPearson(x, trials));
			for (let p = 0.001; p < 1; p += 0.00499) {
				const { coverage } = binomialCoverage(
					trials,
					p,
					(x) => (limits[x]?.low ?? 1) <= p && p <= (limits[x]?.high ?? 0),
				);
				expect(coverage).toBeGreaterThanOrEqual(0.95 - 1e-9);
			}
		}
	});

	it('refuses what is no count or no level', () => {
		for (const [x, n] of [
			[-1, 5],
			[6, 5],
			[0.5, 5],
			[Number.NaN, 5],
		] as const) {
			expect(() => clopperPearson(x, n)).toThrow(RangeError);
		}
		for (const level of [0, 1, 95, Number.NaN]) expect(() => clopperPearson(1, 5, level)).toThrow(RangeError);
	});
});
