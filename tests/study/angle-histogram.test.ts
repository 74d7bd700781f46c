import fc from 'fast-check';
import { expect, test } from 'vitest';
import { angleBin, angleBins, coarseHistograms } from '../../shared/study/angle-histogram.ts';

test('bins are 0.01° wide from −60° to +60°, and the end bins take what lies beyond', () => {
	expect(angleBin(-60)).toBe(0);
	expect(angleBin(-1e9)).toBe(0);
	expect(angleBin(0.005)).toBe(6000);
	expect(angleBin(-0.005)).toBe(5999);
	expect(angleBin(59.999)).toBe(11999);
	expect(angleBin(60)).toBe(11999);
	expect(angleBin(1e9)).toBe(11999);
	fc.assert(
		fc.property(fc.double({ min: -59.99, max: 59.99, noNaN: true }), (error) => {
			const lower = angleBins.start + angleBin(error) * angleBins.step;
			expect(error - lower).toBeGreaterThan(-1e-9);
			expect(error - lower).toBeLessThan(angleBins.step + 1e-9);
		}),
	);
});

test('coarse histograms of 0.1° share one grid over the occupied range and lose no error', () => {
	const early = new Float64Array(angleBins.count);
	const late = new Float64Array(angleBins.count);
	early[angleBin(-1.234)] = 3;
	late[angleBin(2.345)] = 4;
	late[angleBin(2.391)] = 5;
	const [first, second] = coarseHistograms([early, late]);
	expect(first).toMatchObject({ start: -1.3, step: 0.1 });
	expect(second).toMatchObject({ start: -1.3, step: 0.1 });
	expect(first?.counts).toHaveLength(37);
	expect(first?.counts[0]).toBe(3);
	expect(second?.counts.at(-1)).toBe(9);
	expect(second?.counts.reduce((sum, count) => sum + count, 0)).toBe(9);
});

test('histograms without any error keep one empty bin', () => {
	const [only] = coarseHistograms([new Float64Array(angleBins.count)]);
	expect(only?.counts).toEqual([0]);
});
