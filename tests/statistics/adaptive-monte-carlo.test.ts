import { describe, expect, it } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { uniform } from '../../shared/sampling/uniform.ts';
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
const rectangular = (next: () => number, low: number, high: number): number =>
	(low + high) / 2 + uniform((high - low) / 2, next());

describe('adaptive Monte Carlo', () => {
	it('numerical tolerance: 0.00035 at two digits 5e-6, at one digit 5e-5; 2 at one digit 0.5', () => {
		// JCGM 101:2008, 7.9.2, examples (from memory, recomputed)
		expect(numericalTolerance(0.00035, 2)).toBe(5e-6);
		expect(numericalTolerance(0.00035, 1)).toBe(5e-5);
		expect(numericalTolerance(2, 1)).toBe(0.5);
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

	it('four standard normals (9.2.2): u 2.00, 95 % limits ±3.92, within δ = 0.05', () => {
		const result = adaptiveMonteCarlo(batches((next) => normal(next) + normal(next) + normal(next) + normal(next)));
		expect(result.settled).toBe(true);
		expect(result.tolerance).toBe(0.05);
		expect(Math.abs(result.sd - 2)).toBeLessThan(0.05);
		expect(Math.abs(result.low + 3.919928)).toBeLessThan(0.05);
		expect(Math.abs(result.high - 3.919928)).toBeLessThan(0.05);
	});

	it('four rectangular inputs of the same σ (9.2.3): limits ±3.88, not the ±3.92 of linear propagation, to 0.005', () => {
		const edge = Math.sqrt(3);
		const result = adaptiveMonteCarlo(
			batches((next) => [0, 0, 0, 0].reduce((sum) => sum + rectangular(next, -edge, edge), 0)),
			{ digits: 3 },
		);
		expect(result.settled).toBe(true);
		expect(Math.abs(result.low + 3.8794067)).toBeLessThan(0.005);
		expect(Math.abs(result.high - 3.8794067)).toBeLessThan(0.005);
	});

	it('one input ten times larger (9.2.4): u 10.15, limits ±17.0, not ±19.9', () => {
		const edge = Math.sqrt(3) * 10;
		const result = adaptiveMonteCarlo(
			batches((next) => normal(next) + normal(next) + normal(next) + rectangular(next, -edge, edge)),
		);
		expect(Math.abs(result.sd - 10.148892)).toBeLessThan(0.05);
		expect(Math.abs(result.high - 17.015814)).toBeLessThan(0.1);
	});

	it('mass calibration (9.3): 1.234 mg, u 0.0754 mg, [1.084, 1.384] within δ = 0.005 mg', () => {
		// published single run: 1.2341, 0.0754, [1.0834, 1.3825]; 40 runs of 10⁶ recomputed: [1.0844, 1.3836]
		const result = adaptiveMonteCarlo(
			batches((next) => {
				const reference = normal(next, 0.05, 100_000) + normal(next, 0.02, 1.234);
				const air = rectangular(next, 1.1, 1.3);
				const weight = rectangular(next, 7000, 9000);
				const standard = rectangular(next, 7950, 8050);
				return reference * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000;
			}),
			{ digits: 1 },
		);
		expect(Math.abs(result.mean - 1.234)).toBeLessThan(0.005);
		expect(Math.abs(result.sd - 0.0754797)).toBeLessThan(0.005);
		expect(Math.abs(result.low - 1.0844)).toBeLessThan(0.005);
		expect(Math.abs(result.high - 1.3836)).toBeLessThan(0.005);
	});

	it.each([
		[0, 50e-6, 50e-6, 0, 149.8e-6],
		[0.01, 150e-6, 111.8e-6, 0, 366e-6],
		[0.05, 2550e-6, 502.5e-6, 1593.6e-6, 3548.6e-6],
	])('comparison loss (9.4) at x1 = %s: mean %s, u %s, shortest interval %s to %s', (x1, mean, u, low, high) => {
		const result = adaptiveMonteCarlo(
			batches((next) => normal(next, 0.005, x1) ** 2 + normal(next, 0.005) ** 2),
			{ kind: 'shortest', maxBatches: 40 },
		);
		// standard errors: that of the mean below u/√draws, of the limits about ten times as large
		expect(Math.abs(result.mean - mean)).toBeLessThan(0.01 * u);
		expect(Math.abs(result.sd - u)).toBeLessThan(0.02 * u);
		expect(Math.abs(result.low - low)).toBeLessThan(0.1 * u);
		expect(Math.abs(result.high - high)).toBeLessThan(0.1 * u);
	});

	it.each([
		[0, 50e-6, 67.3e-6, 0, 185e-6],
		[0.01, 150e-6, 120.5e-6, 12e-6, 397e-6],
		[0.05, 2550e-6, 504.5e-6, 1620e-6, 3550e-6],
	])('comparison loss with r = 0.9 (9.4.3) at x1 = %s: mean %s, u %s, shortest %s to %s', (x1, mean, u, low, high) => {
		// u from the closed form √(4u²x1² + 4u⁴(1 + r²)); intervals from 2·10⁷ draws of an independent library
		const r = 0.9;
		const result = adaptiveMonteCarlo(
			batches((next) => {
				const first = normal(next);
				const second = r * first + Math.sqrt(1 - r * r) * normal(next);
				return (x1 + 0.005 * first) ** 2 + (0.005 * second) ** 2;
			}),
			{ kind: 'shortest', maxBatches: 40 },
		);
		expect(Math.abs(result.mean - mean)).toBeLessThan(0.01 * u);
		expect(Math.abs(result.sd - u)).toBeLessThan(0.02 * u);
		expect(Math.abs(result.low - low)).toBeLessThan(0.1 * u);
		expect(Math.abs(result.high - high)).toBeLessThan(0.1 * u);
	});

	it('meets its ceiling unsettled and says so', () => {
		const result = adaptiveMonteCarlo(batches(normal), { digits: 5, maxBatches: 3 });
		expect(result.settled).toBe(false);
		expect(result.draws).toBe(30_000);
	});
});
