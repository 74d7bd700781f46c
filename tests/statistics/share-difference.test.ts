import { describe, expect, it } from 'vitest';
import {
	pairedShareDifference,
	pairedShareDifferenceWald,
	shareDifference,
} from '../../shared/statistics/share-difference.ts';

describe('difference of shares', () => {
	it.each([
		[101, 121, 59, 33],
		[20, 12, 2, 16],
		[794, 150, 86, 570],
	])(
		'paired %s/%s/%s/%s: the score interval is within 0.02 of the normal one',
		(both, onlyFirst, onlySecond, neither) => {
			const counts = { both, onlyFirst, onlySecond, neither };
			const wald = pairedShareDifferenceWald(counts);
			const score = pairedShareDifference(counts);
			expect(Math.abs(score.low - wald.low)).toBeLessThan(0.02);
			expect(Math.abs(score.high - wald.high)).toBeLessThan(0.02);
		},
	);

	it('swapping the choices mirrors the interval, and no units at all leave [−1, 1]', () => {
		const there = pairedShareDifference({ both: 50, onlyFirst: 9, onlySecond: 2, neither: 3 });
		const back = pairedShareDifference({ both: 50, onlyFirst: 2, onlySecond: 9, neither: 3 });
		expect(back.low).toBeCloseTo(-there.high, 14);
		expect(pairedShareDifference({ both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 })).toEqual({ low: -1, high: 1 });
		expect(shareDifference(0, 0, 1, 2)).toEqual({ low: -1, high: 1 });
	});

	it('all pass with both choices: the interval still has a width, and wrong counts are refused', () => {
		const { low, high } = pairedShareDifference({ both: 40, onlyFirst: 0, onlySecond: 0, neither: 0 });
		expect(high).toBeGreaterThan(0.05);
		expect(low).toBeCloseTo(-high, 14);
		expect(() => pairedShareDifference({ both: -1, onlyFirst: 0, onlySecond: 0, neither: 0 })).toThrow(RangeError);
	});
});
