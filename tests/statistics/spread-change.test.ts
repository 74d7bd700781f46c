import { expect, test } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { spreadChange } from '../../shared/statistics/spread-change.ts';
import { rowsOfTwo } from './rows-of-two.ts';

const draw = stream('spread change', 'test');
const normal = (n: number): number[] => Array.from({ length: n }, () => inverseNormal(draw.double()));
const sample = normal(600);
const scaled = (values: readonly number[], by: number): number[] => values.map((value) => by * value);

test('of the same rows is nothing, with no width; of other rows it has one', () => {
	const same = rowsOfTwo(sample);
	const { change, low, high } = spreadChange(same, same);
	expect(change).toBe(0);
	expect(high - low).toBeLessThan(1e-7);
	const apart = spreadChange(same, same, { paired: false });
	expect(apart.high - apart.low).toBeGreaterThan(0.1);
});

test('of rows that all spread half as much is half the deviation, as uncertain as half of it', () => {
	const [before, after] = [rowsOfTwo(sample), rowsOfTwo(scaled(sample, 0.5))];
	const { change, low, high } = spreadChange(before, after);
	expect(change).toBeCloseTo(-before.sd / 2, 12);
	const none = spreadChange({ sd: 0, squares: [0, 0] }, after, { paired: false });
	expect(high - low).toBeCloseTo(none.high - none.low, 6);
});

test('swapping the sides turns the change and, of different rows, its limits round', () => {
	const [one, other] = [rowsOfTwo(sample), rowsOfTwo(normal(600))];
	const there = spreadChange(one, other, { paired: false });
	const back = spreadChange(other, one, { paired: false });
	expect([back.change, back.low, back.high]).toEqual([-there.change, -there.high, -there.low]);
});

test('rows that one side lacks are paired with none: the fewer in common, the wider', () => {
	const [before, after] = [rowsOfTwo(sample), rowsOfTwo(scaled(sample, 0.9))];
	const without = (rows: number) => ({
		...after,
		squares: Array.from(after.squares, (square, row) => (row < rows ? Number.NaN : square)),
	});
	const widths = [0, 100, 200].map((rows) => {
		const { low, high } = spreadChange(before, without(rows));
		return high - low;
	});
	expect(widths).toEqual(widths.toSorted((one, other) => one - other));
	expect(new Set(widths).size).toBe(3);
});

test('with fewer than two rows on a side has no limits', () => {
	const known = rowsOfTwo(sample);
	const open = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
	expect(spreadChange({ sd: 1, squares: [] }, known)).toMatchObject(open);
	expect(spreadChange(known, { sd: 1, squares: [Number.NaN, 1] })).toMatchObject(open);
});

test('deviations that are nothing change by nothing', () => {
	const none = { sd: 0, squares: [0, 0, 0] };
	expect(spreadChange(none, none)).toEqual({ before: 0, after: 0, change: 0, low: 0, high: 0 });
});
