import { describe, expect, it } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { stream } from '../../shared/sampling/stream.ts';
import {
	adaptiveMonteCarlo,
	batchSize,
	numericalTolerance,
	settling,
} from '../../shared/statistics/adaptive-monte-carlo.ts';

/** Batches of a model of independent inputs, each from its uniform. */
const batches =
	(model: (next: () => number) => number) =>
	(batch: number, size: number): Float64Array => {
		const source = stream('jcgm', 'batch', batch);
		const next = (): number => Math.max(source.double(), 2 ** -60);
		return Float64Array.from({ length: size }, () => model(next));
	};
const normal = (next: () => number, sd = 1, mean = 0): number => mean + sd * inverseNormal(next());

describe('adaptive Monte Carlo', () => {
	it('numerical tolerance: 9.96 at two digits is 10, so 0.5; of nothing it is nothing', () => {
		expect(numericalTolerance(9.96, 2)).toBe(0.5);
		expect(numericalTolerance(0, 2)).toBe(0);
	});

	it('a batch is 10,000 draws at 95 %, 100,000 at 99.9 %', () => {
		// 7.9.4 b, c: J = 2000 at 95 %
		expect(batchSize(0.95)).toBe(10_000);
		expect(batchSize(0.999)).toBe(100_000);
	});

	it('never settles on one batch, and settles on two equal ones', () => {
		const figures = { mean: 1, sd: 1, low: -1, high: 3 };
		expect(settling([figures], 1, 2).settled).toBe(false);
		expect(settling([figures, figures], 1, 2).settled).toBe(true);
		expect(settling([figures, { ...figures, high: 3.2 }], 1, 2).settled).toBe(false);
	});

	it('meets its ceiling unsettled and says so', () => {
		const result = adaptiveMonteCarlo(batches(normal), { digits: 5, maxBatches: 3 });
		expect(result.settled).toBe(false);
		expect(result.draws).toBe(30_000);
	});
});
