import fc from 'fast-check';
import { expect, test } from 'vitest';
import { errorBins } from '../../shared/charts/error-bins.ts';

const histograms = (halfBus: number[], virtualNeutral: number[], start = -10, step = 0.1) => ({
	halfBus: { histogram: { start, step, counts: halfBus } },
	virtualNeutral: { histogram: { start, step, counts: virtualNeutral } },
});

test('every count is in a bin or counted as outside, whatever the histogram', () => {
	const counts = fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 1, maxLength: 1200 });
	fc.assert(
		fc.property(counts, counts, fc.integer({ min: -600, max: 0 }), (one, two, first) => {
			const length = Math.max(one.length, two.length);
			const pad = (list: number[]): number[] => [...list, ...new Array(length - list.length).fill(0)];
			const made = errorBins(histograms(pad(one), pad(two), first / 10));
			const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
			if (!made) return sum(one) + sum(two) === 0;
			return (['halfBus', 'virtualNeutral'] as const).every((choice) => {
				const own = made.bins.filter((bin) => bin.choice === choice);
				return (
					sum(own.map((bin) => bin.count)) + made.outside[choice] === made.total[choice] &&
					made.outside[choice] <= 0.001 * made.total[choice] + 1e-9 &&
					own.length <= 93
				);
			});
		}),
		{ seed: 7, numRuns: 300 },
	);
});

test('1200 bins of 0.1° become bins of 2° whose edges are multiples of 2°', () => {
	const made = errorBins(histograms(new Array(1200).fill(10), new Array(1200).fill(10), -60));
	expect(made?.step).toBe(2);
	for (const { from, to } of made?.bins ?? []) {
		expect(from % 2).toBeCloseTo(0, 9);
		expect(to - from).toBeCloseTo(2, 9);
	}
});

test('the cumulative share ends at 1 where nothing is left out, and starts above 0 by what lies left of the picture', () => {
	const quiet = errorBins(histograms([0, 1, 2, 1, 0], [0, 0, 4, 0, 0], 0, 1));
	expect(quiet?.bins.filter(({ choice }) => choice === 'halfBus').at(-1)?.cumulative).toBe(1);
	// 1 in 10 000 far to the left: left out, but still below every bin
	const counts = [1, ...new Array(99).fill(0), 5000, 4999];
	const tailed = errorBins(histograms(counts, counts));
	expect(tailed?.outside.halfBus).toBe(1);
	expect(tailed?.bins[0]).toMatchObject({ count: 0, cumulative: 1e-4 });
});

test('a histogram that reaches ±60° says that its end bins hold what lies beyond', () => {
	const lost = new Array(1200).fill(0);
	lost[0] = 5;
	lost[600] = 5;
	expect(errorBins(histograms(lost, lost, -60))?.open).toEqual({ first: true, last: false });
	expect(errorBins(histograms([5, 5], [5, 5], -1))?.open).toEqual({ first: false, last: false });
});

test('with nothing measured there is no picture', () => {
	expect(errorBins(histograms([0, 0], [0, 0]))).toBeNull();
});

test('with an earlier result the picture reaches over its errors too, at most as far again on each side', () => {
	const narrow = histograms([1, 8, 9, 8, 1], [1, 8, 9, 8, 1], -0.25);
	const ends = (before?: ReturnType<typeof histograms>): readonly number[] => {
		const bins = errorBins(narrow, before)?.bins ?? [];
		return [Math.min(...bins.map(({ from }) => from)), Math.max(...bins.map(({ to }) => to))];
	};
	expect(ends()[1]).toBeLessThan(0.45);
	const wider = histograms([5, 5, 5, 5, 5, 5], [0, 0, 0, 0, 0, 0], 0);
	expect(ends(wider)[0]).toBe(ends()[0]);
	expect(ends(wider)[1]).toBeGreaterThanOrEqual(0.6);
	const wild = histograms([5, ...new Array(198).fill(0), 5], new Array(200).fill(0));
	expect(ends(wild)[0]).toBeGreaterThan(-1);
	expect(ends(wild)[1]).toBeLessThan(1);
	expect(ends(histograms([0], [0]))).toEqual(ends());
});
