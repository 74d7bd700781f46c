import { describe, expect, it } from 'vitest';
import { unevenMean } from '../../shared/statistics/uneven-mean.ts';

describe('mean of uneven values', () => {
	it('1 … 200: mean 100.5, standard error 4.09268, effective 150.37, limits near mean ± 1.972 standard errors', () => {
		// Σi = 20 100, Σi² = 2 686 700; variance n(n + 1)/12 = 3350
		const { mean, standardError, effective, largestShare, interval } = unevenMean(
			Array.from({ length: 200 }, (_, i) => i + 1),
		);
		expect(mean).toBeCloseTo(100.5, 12);
		expect(standardError).toBeCloseTo(Math.sqrt(3350 / 200), 12);
		expect(effective).toBeCloseTo(20100 ** 2 / 2686700, 10);
		expect(largestShare).toBeCloseTo(200 / 20100, 14);
		// symmetric values: Hall's correction leaves the t limits, t(199) = 1.971957 (tables, from memory)
		expect(interval?.low).toBeCloseTo(100.5 - 1.971957 * standardError, 4);
		expect(interval?.high).toBeCloseTo(100.5 + 1.971957 * standardError, 4);
	});

	it('gives no interval below an effective number of 100, and still the mean', () => {
		const values = new Float64Array(1000).fill(1e-9);
		values[3] = 1e-3;
		const { mean, effective, largestShare, largest, interval } = unevenMean(values);
		expect(interval).toBeNull();
		expect(mean).toBeCloseTo(1e-6, 8);
		expect(effective).toBeLessThan(1.1);
		expect(largestShare).toBeGreaterThan(0.99);
		expect(largest).toBe(3);
	});

	it('skew values have the longer arm above: 900 of 0 and 150 of 1', () => {
		const { mean, interval } = unevenMean([...new Float64Array(900), ...new Float64Array(150).fill(1)]);
		expect((interval?.high ?? 0) - mean).toBeGreaterThan(mean - (interval?.low ?? 0));
	});

	it('rates of 10⁻²⁰⁰ lose nothing: limits scale with the values', () => {
		const values = Array.from({ length: 400 }, (_, i) => 1 + (i % 7));
		const plain = unevenMean(values);
		const tiny = unevenMean(values.map((value) => value * 1e-200));
		expect((tiny.interval?.low ?? 0) / 1e-200).toBeCloseTo(plain.interval?.low ?? 0, 10);
		expect((tiny.interval?.high ?? 0) / 1e-200).toBeCloseTo(plain.interval?.high ?? 0, 10);
	});

	it('equal values have no spread; all 0 or none give a mean without interval; negative ones are refused', () => {
		expect(unevenMean(new Float64Array(150).fill(3)).interval).toEqual({ low: 3, high: 3 });
		expect(unevenMean(new Float64Array(150))).toMatchObject({ mean: 0, interval: null });
		expect(unevenMean([])).toMatchObject({ mean: Number.NaN, interval: null });
		expect(() => unevenMean([1, -1])).toThrow(RangeError);
		expect(() => unevenMean([1], 95)).toThrow(RangeError);
	});
});
