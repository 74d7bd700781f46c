import { describe, expect, it, test } from 'vitest';
import { drawFromMixture, failureMixture, mixtureWeight } from '../../shared/rare/failure-mixture.ts';
import { unevenMean } from '../../shared/statistics/uneven-mean.ts';
import { eitherWay, equalParetoProduct, paretoProduct } from './known-limits.ts';
import { runSearch, sampleFailures, widened } from './run-search.ts';

const at = (...point: number[]) => ({ point: Float64Array.from(point), distance: Math.hypot(...point) });

describe('the mixture', () => {
	it('gives 15 % to ordinary draws and the rest to groups by their parts, whatever their distance', () => {
		const { ordinary, centres } = failureMixture([
			{ points: [at(2, 0), at(0, 2)], part: 3 },
			{ points: [at(6, 0)], part: 1 },
			{ points: [], part: 1 },
		]);
		expect(ordinary).toBe(0.15);
		for (const [i, share] of [0.31875, 0.31875, 0.2125].entries()) expect(centres[i]?.share).toBeCloseTo(share, 14);
	});

	it('draws nothing but ordinary drives where nothing fails, or the middle does: every weight is 1', () => {
		for (const groups of [[], [{ points: [], part: 1 }], [{ points: [at(0, 0)], part: 1 }]]) {
			const mixture = failureMixture(groups);
			expect(mixture).toEqual({ ordinary: 1, centres: [] });
			expect(drawFromMixture(mixture, 2, 'seed', 5).weight).toBe(1);
		}
	});

	it('weights are the ratio of the densities, at most 1/0.15, and 1 on average within 3 standard errors', () => {
		const mixture = failureMixture([{ points: [at(2, 1), at(-2.5, 0)], part: 1 }]);
		const weights = Float64Array.from({ length: 20_000 }, (_, i) => drawFromMixture(mixture, 2, 'mean', i).weight);
		expect(Math.max(...weights)).toBeLessThanOrEqual(1 / 0.15);
		const { mean, standardError } = unevenMean(weights);
		expect(Math.abs(mean - 1)).toBeLessThan(3 * standardError);
		const normal = (x: number, y: number): number => Math.exp(-(x * x + y * y) / 2);
		const [first, second] = mixture.centres;
		const density = 0.15 * normal(1, 1) + (first?.share ?? 0) * normal(-1, 0) + (second?.share ?? 0) * normal(3.5, 1);
		expect(mixtureWeight(mixture, Float64Array.of(1, 1))).toBeCloseTo(normal(1, 1) / density, 12);
	});

	it('draw i is a function of seed and i alone', () => {
		const mixture = failureMixture([{ points: [at(3, 0, 0)], part: 1 }]);
		const one = drawFromMixture(mixture, 3, 'seed', 17);
		drawFromMixture(mixture, 3, 'seed', 18);
		expect(drawFromMixture(mixture, 3, 'seed', 17)).toEqual(one);
		expect(drawFromMixture(mixture, 3, 'other', 17)).not.toEqual(one);
	});
});

// coverage over 20,000 replicates is in tests/statistics/coverage.json; here one run each
test.each([1e-5, 1e-8, 1e-11])(
	'search and 10,000 draws find a heavy-tailed share of %s within 3 standard errors',
	(probability) => {
		const limit = paretoProduct([1, 0.4, 0.2], probability, 1);
		const { mean, standardError, effective, interval } = unevenMean(
			sampleFailures(limit, failureMixture([{ points: runSearch(limit).found, part: 1 }]), 10_000, 'one'),
		);
		expect(Math.abs(mean - probability)).toBeLessThan(3 * standardError);
		expect(standardError).toBeLessThan(0.06 * probability);
		expect(effective).toBeGreaterThan(300);
		expect(interval).not.toBeNull();
	},
);

test('a failing region that bends around the origin, 10⁻⁸ under two equal factors, is missed by one point and found by widened ones', () => {
	const limit = equalParetoProduct(2, 1e-8);
	const { found } = runSearch(limit);
	const share = (points: typeof found) =>
		unevenMean(sampleFailures(limit, failureMixture([{ points, part: 1 }]), 10_000, 'one'));
	const points = widened(limit, found);
	const { mean, standardError, effective } = share(points);
	expect(Math.abs(mean - 1e-8)).toBeLessThan(3 * standardError);
	expect(effective).toBeGreaterThan(3 * share(found).effective);
	for (const { point } of points) expect(limit.value(point).fails).toBe(true);
	// both ends of the region, where one factor alone fails, have a point near them
	for (const k of [0, 1]) expect(points.some(({ point }) => (point[k] as number) < 1)).toBe(true);
});

test('widening puts parts that do not matter back to the middle: of 33 coordinates the points keep at most four', () => {
	const limit = paretoProduct([1, 0.4, 0.2], 1e-8, 30);
	for (const { point, figure } of widened(limit, runSearch(limit).found)) {
		if (figure < 0) expect(point.filter((x) => x !== 0).length).toBeLessThanOrEqual(4);
	}
});

test('eight ways to fail, 1.1·10⁻⁴ in all, are counted whole and not as one', () => {
	const limit = eitherWay(4, 4.2);
	const { mean, standardError } = unevenMean(
		sampleFailures(limit, failureMixture([{ points: runSearch(limit).found, part: 1 }]), 10_000, 'one'),
	);
	expect(Math.abs(mean - limit.probability)).toBeLessThan(3 * standardError);
	expect(mean).toBeGreaterThan(6 * (limit.probability / 8));
});
