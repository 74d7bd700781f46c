import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { describe, expect, it } from 'vitest';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import { correlation, criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';

const noise = keyedNoise('demo');
const n = 40_000;

describe('keyed noise', () => {
	it('a value depends on its key alone, in whatever order the others are asked for', () => {
		const keys = Array.from({ length: 400 }, (_, i) => [i % 20, Math.floor(i / 20)] as const);
		const run = noise.forRun(5, 1, 2);
		const forward = keys.map(([sector, reading]) => run.normal(sector, reading));
		const spreads = keys.map(([period]) => [run.ringSpread(period, 0), run.ringSpread(period, 1)]);
		const again = keyedNoise('demo').forRun(5, 1, 2);
		const backward = keys.toReversed().map(([sector, reading], i) => {
			again.ringSpread(i, 1);
			return again.normal(sector, reading);
		});
		expect(backward.reverse()).toEqual(forward);
		expect(keys.map(([period]) => [again.ringSpread(period, 0), again.ringSpread(period, 1)])).toEqual(spreads);
	});

	it('seed, unit, point, start, sector, reading, period and edge each change the value', () => {
		const values = [
			keyedNoise('other').forRun(1, 1, 1).normal(1, 1),
			noise.forRun(1, 1, 1).normal(1, 1),
			noise.forRun(2, 1, 1).normal(1, 1),
			noise.forRun(1, 2, 1).normal(1, 1),
			noise.forRun(1, 1, 2).normal(1, 1),
			noise.forRun(1, 1, 1).normal(2, 1),
			noise.forRun(1, 1, 1).normal(1, 2),
			noise.forRun(1, 1, 1).normal(1, 0),
			noise.forRun(1, 1, 1).ringSpread(1, 0),
			noise.forRun(1, 1, 1).ringSpread(1, 1),
			noise.forRun(1, 1, 1).ringSpread(0, 0),
		];
		expect(new Set(values).size).toBe(values.length);
	});

	it.each([
		['readings of one sector', (i: number) => noise.forRun(0, 0, 0).normal(3, i)],
		['sectors of one run', (i: number) => noise.forRun(0, 0, 0).normal(i, 3)],
		['units', (i: number) => noise.forRun(i, 0, 0).normal(3, 3)],
		['starts and points', (i: number) => noise.forRun(0, i >> 8, i & 255).normal(3, 3)],
	])(
		'40,000 normals over %s pass Kolmogorov–Smirnov at the 1 per cent level, and neighbours correlate by less than 3/√n',
		(_, draw) => {
			const values = Float64Array.from({ length: n }, (__, i) => draw(i));
			expect(distanceFrom(values, (x) => normalCdf(x, 0, 1))).toBeLessThan(criticalDistance(n));
			for (const lag of [1, 2, 3]) {
				expect(Math.abs(correlation(values.subarray(lag), values.subarray(0, -lag)))).toBeLessThan(3 / Math.sqrt(n));
			}
		},
	);

	it('ring spreads are uniform in [−1, 1) and both edges of a period uncorrelated', () => {
		const run = noise.forRun(1, 2, 3);
		const on = Float64Array.from({ length: n }, (_, period) => run.ringSpread(period, 0));
		const off = Float64Array.from({ length: n }, (_, period) => run.ringSpread(period, 1));
		expect(distanceFrom(on, (x) => (x + 1) / 2)).toBeLessThan(criticalDistance(n));
		expect(Math.abs(correlation(on, off))).toBeLessThan(3 / Math.sqrt(n));
	});

	it('a run outside the key is refused', () => {
		for (const [unit, point, start] of [
			[-1, 0, 0],
			[0.5, 0, 0],
			[0, 65536, 0],
			[0, 0, -1],
		] as const) {
			expect(() => noise.forRun(unit, point, start)).toThrow(RangeError);
		}
	});
});
