import { describe, expect, it } from 'vitest';
import {
	adaptiveMonteCarlo,
	batchSize,
	numericalTolerance,
	settling,
} from '../../shared/statistics/adaptive-monte-carlo.ts';
import { batches, normal } from '../model-checks/sampling-checks.ts';

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

	it('settles where nothing spreads: the tolerance is then 0 and no error can be below it', () => {
		const constant = (_batch: number, size: number) => new Float64Array(size).fill(0.1);
		expect(adaptiveMonteCarlo(constant)).toMatchObject({
			settled: true,
			draws: 20_000,
			tolerance: 0,
			sd: 0,
			mean: 0.1,
		});
		const still = { mean: 1, sd: 0, low: 1, high: 1 };
		expect(settling([still], 0, 2).settled).toBe(false);
		expect(settling([still, { ...still, mean: 1.5 }], 0.25, 2).settled).toBe(false);
	});

	it('meets its ceiling unsettled and says so', () => {
		const result = adaptiveMonteCarlo(batches(normal), { digits: 5, maxBatches: 3 });
		expect(result.settled).toBe(false);
		expect(result.draws).toBe(30_000);
	});
});
