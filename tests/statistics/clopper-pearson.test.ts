import { describe, expect, it } from 'vitest';
import { clopperPearson, clopperPearsonLower, clopperPearsonUpper } from '../../shared/statistics/clopper-pearson.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('Clopper–Pearson', () => {
	it('the one-sided limits of n of n mirror those of 0 of n', () => {
		for (const n of [10, 30, 100, 1000, 10_000]) {
			expect(clopperPearsonLower(n, n)).toBeCloseTo(1 - clopperPearsonUpper(0, n), 12);
		}
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
