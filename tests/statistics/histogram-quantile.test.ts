import { expect, it } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { histogramQuantile } from '../../shared/statistics/histogram-quantile.ts';
import { quantileOfSorted } from '../../shared/statistics/quantile.ts';

it('of 2, 0, 2 counts in unit bins from 10: the median is the end of the first bin, the quarter its middle', () => {
	const histogram = { start: 10, step: 1, counts: [2, 0, 2] };
	expect([0, 0.25, 0.5, 0.75, 1].map((p) => histogramQuantile(histogram, p))).toEqual([10, 10.5, 11, 12.5, 13]);
});

it('is within one step of the quantile of the values themselves, for 10,000 skew values', () => {
	const next = stream('histogram', 'check', 1);
	const values = Float64Array.from({ length: 10_000 }, () => 8 * next.double() ** 3).sort();
	const counts = new Float64Array(160);
	for (const value of values) counts[Math.floor(value / 0.05)] = (counts[Math.floor(value / 0.05)] as number) + 1;
	for (const p of [0.005, 0.025, 0.5, 0.975, 0.995]) {
		expect(Math.abs(histogramQuantile({ start: 0, step: 0.05, counts }, p) - quantileOfSorted(values, p))).toBeLessThan(
			0.05,
		);
	}
});

it('of nothing is NaN; a step of 0 or p of 2 is refused', () => {
	expect(histogramQuantile({ start: 0, step: 1, counts: [0, 0] }, 0.5)).toBeNaN();
	expect(() => histogramQuantile({ start: 0, step: 0, counts: [1] }, 0.5)).toThrow(RangeError);
	expect(() => histogramQuantile({ start: 0, step: 1, counts: [1] }, 2)).toThrow(RangeError);
});
