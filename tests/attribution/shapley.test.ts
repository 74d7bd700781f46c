import { expect, test } from 'vitest';
import { setsNeeded, shapleyShares } from '../../shared/attribution/shapley.ts';

test('the glove game gives 2/3 to the one left glove and 1/6 to each of two right ones', () => {
	// textbook example, from memory and recomputed by hand over the six orders: player 0 has the left glove
	const value = (set: number): number => ((set & 1) === 1 && (set & 6) !== 0 ? 1 : 0);
	const shares = shapleyShares(3, value);
	expect(shares[0]).toBeCloseTo(2 / 3, 14);
	expect(shares[1]).toBeCloseTo(1 / 6, 14);
	expect(shares[2]).toBeCloseTo(1 / 6, 14);
});

test('edits that only add up each get their own step', () => {
	const steps = [1, -2, 0.5, 0];
	const value = (set: number): number => steps.reduce((sum, step, i) => sum + ((set >> i) & 1 ? step : 0), 10);
	expect(shapleyShares(4, value)).toEqual(steps.map((step) => expect.closeTo(step, 12)));
});

test('the shares of any figure add up to its whole change', () => {
	const value = (set: number): number => Math.sin(7 * set + 1) + set * set;
	const shares = shapleyShares(4, value);
	expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(value(15) - value(0), 10);
});

test('up to four edits need every set, seven need none, seven alone, seven left out and all', () => {
	expect(setsNeeded(1)).toEqual([0, 1]);
	expect(setsNeeded(4)).toHaveLength(16);
	expect(setsNeeded(7)).toHaveLength(16);
	expect(setsNeeded(7)).toContain(126);
	expect(setsNeeded(5)).toHaveLength(12);
});
