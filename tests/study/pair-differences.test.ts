import { expect, test } from 'vitest';
import { differenceBins, differenceGhost } from '../../shared/charts/difference-bins.ts';
import { leftOutWords } from '../../shared/charts/paired-differences.ts';
import { pairDifferences } from '../../shared/study/pair-differences.ts';

const sum = (counts: readonly number[]): number => counts.reduce((all, one) => all + one, 0);

test('every drive with a difference is in a bin that holds it, those that lost lock stand apart', () => {
	const halfBus = [1, 2, 3.5, Infinity, 4, Infinity, 2.25];
	const virtualNeutral = [1.5, 2, 3, 5, Infinity, Infinity, 2.5];
	const { start, step, counts, lost } = pairDifferences(halfBus, virtualNeutral);
	expect(lost).toEqual({ halfBus: 1, virtualNeutral: 1, both: 1 });
	expect(sum(counts)).toBe(4);
	// −0.5, 0, 0.5, −0.25
	for (const difference of [-0.5, 0, 0.5, -0.25]) {
		const at = counts.findIndex((_, i) => difference < start + (i + 1) * step - 1e-12);
		expect(counts[at], String(difference)).toBe(1);
	}
});

test('counting uses at most 401 bins at any size of the differences, and equal drives need one', () => {
	for (const size of [1e-9, 0.003, 1, 47, 120]) {
		const first = Array.from({ length: 999 }, (_, i) => (size * i) / 998);
		const { counts } = pairDifferences(first, new Array(999).fill(0));
		expect(sum(counts), String(size)).toBe(999);
		expect(counts.length, String(size)).toBeLessThanOrEqual(401);
	}
	expect(pairDifferences([2, 2], [2, 2])).toMatchObject({ start: 0, counts: [2] });
	expect(pairDifferences([Infinity], [1]).counts).toEqual([]);
	expect(pairDifferences([], []).counts).toEqual([]);
});

test('a picture has up to 4·∛n bins with an edge at zero, leaves the farthest drives out and counts them', () => {
	// 997 drives from −1° to +1°, and three wild ones
	const first = [...Array.from({ length: 997 }, (_, i) => -1 + (2 * i) / 996), 30, 31, -25];
	const bins = differenceBins(pairDifferences(first, new Array(1000).fill(0)));
	if (!bins) throw new Error('no bins');
	expect(bins.bins.length).toBeGreaterThan(8);
	expect(bins.bins.length).toBeLessThanOrEqual(43);
	expect(bins.bins.some(({ from }) => from === 0)).toBe(true);
	expect(bins.outside).toEqual({ below: 1, above: 2 });
	expect(sum(bins.bins.map(({ count }) => count)) + 3).toBe(1000);
	expect(leftOutWords(bins, { halfBus: 1, virtualNeutral: 0, both: 2 })).toBe(
		'Not in the picture: 3 of 1000 drives, beyond its edges; 1 drive that lost lock with half-bus alone; 2 drives that lost lock with both.',
	);
	expect(differenceBins(pairDifferences([Infinity], [1]))).toBeNull();
	expect(differenceBins(undefined)).toBeNull();
});

test('an earlier result of another number of drives in another grid keeps its shares', () => {
	const spread = (drives: number, width: number) =>
		Array.from({ length: drives }, (_, i) => -width + (2 * width * i) / (drives - 1));
	const now = differenceBins(pairDifferences(spread(1000, 1), new Array(1000).fill(0)));
	if (!now) throw new Error('no bins');
	const ghost = differenceGhost(now, pairDifferences(spread(250, 0.7), new Array(250).fill(0)));
	expect(sum(ghost.map(({ share }) => share))).toBeCloseTo(1, 9);
	expect(sum(ghost.map(({ count }) => count))).toBeCloseTo(1000, 6);
	const inside = ghost.filter(({ from, to }) => from >= -0.35 - 1e-9 && to <= 0.35 + 1e-9);
	expect(sum(inside.map(({ share }) => share))).toBeCloseTo((0.5 * inside.length * now.step) / 0.7, 1);
});

test('the bins reach over the drives of an earlier result that is drawn with them', () => {
	const spread = (middle: number) =>
		pairDifferences(
			Array.from({ length: 200 }, (_, i) => middle + i / 200),
			new Array(200).fill(0),
		);
	const last = (before?: ReturnType<typeof spread>) => differenceBins(spread(-1), before)?.bins.at(-1)?.to ?? 0;
	expect(last()).toBeLessThan(0.3);
	expect(last(spread(-0.5))).toBeGreaterThanOrEqual(0.5);
	// at most as wide again
	expect(last(spread(9))).toBeLessThan(1.3);
	expect(last(pairDifferences([], []))).toBe(last());
});
