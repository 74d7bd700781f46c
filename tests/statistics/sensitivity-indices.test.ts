import { describe, expect, it } from 'vitest';
import { sensitivityIndices, sensitivityIntervals } from '../../shared/statistics/sensitivity-indices.ts';
import { design, ishigami } from './pick-freeze-design.ts';

describe('sensitivity indices', () => {
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
