import { describe, expect, it } from 'vitest';
import { sensitivityIndices, sensitivityIntervals } from '../../shared/statistics/sensitivity-indices.ts';
import { design, ishigami, type Model } from './pick-freeze-design.ts';

const weights = [0, 1, 4.5, 9, 99, 99, 99, 99];
/** I. M. Sobol's g function. */
const g: Model = (u) =>
	u.reduce(
		(product, each, i) => (product * (Math.abs(4 * each - 2) + (weights[i] as number))) / (1 + (weights[i] as number)),
		1,
	);

describe('sensitivity indices', () => {
	// analytic: recomputed; rounded figures quoted from Saltelli 2008
	it.each([
		[0, 0.313905191, 0.557588855],
		[1, 0.442411145, 0.442411145],
		[2, 0, 0.243683664],
	])('Ishigami input %s: first order %s, total %s within 0.02 at 100,000 rows', (input, first, total) => {
		const indices = sensitivityIndices(design(ishigami, 3, [input], 100_000));
		expect(Math.abs(indices.first - first)).toBeLessThan(0.02);
		expect(Math.abs(indices.total - total)).toBeLessThan(0.02);
	});

	// recomputed: first orders from memory
	it.each([
		[0, 0.716192, 0.787144],
		[1, 0.179048, 0.242198],
		[2, 0.0236758, 0.0343169],
		[3, 0.00716192, 0.0104604],
		[4, 7.1619e-5, 1.04949e-4],
	])('g function input %s: first order %s, total %s within 0.015 at 100,000 rows', (input, first, total) => {
		const indices = sensitivityIndices(design(g, 8, [input], 100_000));
		expect(Math.abs(indices.first - first)).toBeLessThan(0.015);
		expect(Math.abs(indices.total - total)).toBeLessThan(0.015);
	});

	it('a group of Ishigami inputs 0 and 2 owes all that input 1 does not: 0.557589, first as total', () => {
		const indices = sensitivityIndices(design(ishigami, 3, [0, 2], 100_000));
		expect(Math.abs(indices.first - 0.557588855)).toBeLessThan(0.02);
		expect(Math.abs(indices.total - 0.557588855)).toBeLessThan(0.02);
	});

	it('of a linear model 4x + 2y + z are the squared regression coefficients .761905 .190476 .047619', () => {
		for (const [input, share] of [0.761905, 0.190476, 0.047619].entries()) {
			const indices = sensitivityIndices(design(([x = 0, y = 0, z = 0]) => 4 * x + 2 * y + z, 3, [input], 100_000));
			expect(Math.abs(indices.first - share)).toBeLessThan(0.01);
			expect(Math.abs(indices.total - share)).toBeLessThan(0.01);
		}
	});

	it('intervals enclose the estimate and narrow by 2 from 500 to 2,000 rows', () => {
		const widths = [500, 2000].map((count) => {
			const rows = design(ishigami, 3, [0], count);
			const { first, total } = sensitivityIndices(rows);
			const intervals = sensitivityIntervals(rows);
			expect(intervals.first.low).toBeLessThan(first);
			expect(intervals.first.high).toBeGreaterThan(first);
			expect(intervals.total.low).toBeLessThan(total);
			expect(intervals.total.high).toBeGreaterThan(total);
			return intervals.total.high - intervals.total.low;
		});
		const [few = 0, many = 1] = widths;
		expect(few / many).toBeGreaterThan(1.5);
		expect(few / many).toBeLessThan(2.7);
	});

	it('of two figures together weighs each by its variance: a figure tenfold counts a hundredfold', () => {
		const one = design(ishigami, 3, [0], 2000);
		const other = design(([, y = 0]) => y, 3, [0], 2000);
		const tenfold = (list: ArrayLike<number>): number[] => Array.from(list, (value) => 10 * value);
		const large = { a: tenfold(one.a), b: tenfold(one.b), mixed: tenfold(one.mixed) };
		const alone = sensitivityIndices(one).total;
		// V = 100 · 13.84 against 1/12 that input 0 has no part in
		const together = sensitivityIndices([large, other]).total;
		expect(sensitivityIndices([one]).total).toBe(alone);
		expect(together / alone).toBeCloseTo(1384.4587941 / (1384.4587941 + 1 / 12), 4);
	});

	it('a constant model has no variance to share out: NaN; unequal lists are refused', () => {
		expect(sensitivityIndices({ a: [1, 1], b: [1, 1], mixed: [1, 1] })).toEqual({
			first: Number.NaN,
			total: Number.NaN,
		});
		expect(() => sensitivityIndices({ a: [1], b: [1, 2], mixed: [1] })).toThrow(RangeError);
	});
});
