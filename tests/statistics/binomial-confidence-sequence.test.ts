import { describe, expect, it } from 'vitest';
import { binomialConfidenceSequence } from '../../shared/statistics/binomial-confidence-sequence.ts';
import { clopperPearson } from '../../shared/statistics/clopper-pearson.ts';

describe('binomial confidence sequence', () => {
	it('crosses exactly where the mixture ratio is 20: 1 of 1 with a uniform mixture gives p = 1/40', () => {
		// B(2, 1)/B(1, 1) = ½, and ½/p = 20 at p = 1/40
		const { low, high } = binomialConfidenceSequence(1, 1, 0.95, [1, 1]);
		expect(low).toBeCloseTo(1 / 40, 14);
		expect(high).toBe(1);
	});

	it('0 of 9 with a uniform mixture ends where (1 − p)⁹ = 1/200', () => {
		// B(1, 10)/B(1, 1) = 1/10
		expect(binomialConfidenceSequence(0, 9, 0.95, [1, 1]).high).toBeCloseTo(1 - 200 ** (-1 / 9), 13);
	});

	it('contains the share seen and encloses the interval for a fixed number, up to 100,000 units', () => {
		for (const [x, n] of [
			[0, 10],
			[9, 10],
			[95, 100],
			[9900, 10_000],
			[99_990, 100_000],
		] as const) {
			const sequence = binomialConfidenceSequence(x, n);
			const fixed = clopperPearson(x, n, 0.9);
			expect(sequence.low).toBeLessThan(fixed.low + 1e-12);
			expect(sequence.high).toBeGreaterThan(fixed.high - 1e-12);
		}
	});

	it('mirrors between passing and failing, and says nothing before the first unit', () => {
		const { low, high } = binomialConfidenceSequence(7, 30);
		const mirrored = binomialConfidenceSequence(23, 30);
		expect(mirrored.low).toBeCloseTo(1 - high, 12);
		expect(mirrored.high).toBeCloseTo(1 - low, 12);
		expect(binomialConfidenceSequence(0, 0)).toEqual({ low: 0, high: 1 });
		expect(() => binomialConfidenceSequence(2, 1)).toThrow(RangeError);
		expect(() => binomialConfidenceSequence(1, 2, 0.95, [0, 1])).toThrow(RangeError);
		expect(() => binomialConfidenceSequence(1, 2, 0.95, [1, 0])).toThrow(RangeError);
	});
});
