import { describe, expect, it } from 'vitest';
import {
	pairedShareDifference,
	pairedShareDifferenceWald,
	shareDifference,
} from '../../shared/statistics/share-difference.ts';

describe('difference of shares', () => {
	// R. G. Newcombe, Statistics in Medicine 17 (1998) 873–890, Table II, method 10: quoted, recomputed
	it.each([
		[56, 70, 48, 80, 0.0524, 0.3339],
		[9, 10, 3, 10, 0.1705, 0.809],
		[6, 7, 2, 7, 0.0582, 0.8062],
		[5, 56, 0, 29, -0.0381, 0.1926],
		[0, 10, 0, 20, -0.1611, 0.2775],
		[0, 10, 0, 10, -0.2775, 0.2775],
		[10, 10, 0, 20, 0.6791, 1],
		[10, 10, 0, 10, 0.6075, 1],
	])('%s of %s less %s of %s lies from %s to %s', (x1, n1, x2, n2, low, high) => {
		const interval = shareDifference(x1, n1, x2, n2);
		expect(interval.low).toBeCloseTo(low, 4);
		expect(interval.high).toBeCloseTo(high, 4);
	});

	it('paired 1/1/7/12 lies from −0.507 to −0.026', () => {
		// Fagerland, Lydersen and Laake 2014, airway responsiveness before and after transplantation: from memory, recomputed
		const interval = pairedShareDifference({ both: 1, onlyFirst: 1, onlySecond: 7, neither: 12 });
		expect(interval.low).toBeCloseTo(-0.507, 3);
		expect(interval.high).toBeCloseTo(-0.026, 3);
	});

	// recomputed; the tables from Armitage and Berry 1994, p. 127, and Agresti 1990, p. 350
	it.each([
		[101, 121, 59, 33, 0.116606, 0.278299],
		[20, 12, 2, 16, 0.06421, 0.33579],
		[794, 150, 86, 570, 0.021284, 0.058716],
	])(
		'paired %s/%s/%s/%s: the normal interval is %s to %s, and the score one is within 0.02 of it',
		(both, onlyFirst, onlySecond, neither, low, high) => {
			const counts = { both, onlyFirst, onlySecond, neither };
			const wald = pairedShareDifferenceWald(counts);
			expect(wald.low).toBeCloseTo(low, 6);
			expect(wald.high).toBeCloseTo(high, 6);
			const score = pairedShareDifference(counts);
			expect(Math.abs(score.low - low)).toBeLessThan(0.02);
			expect(Math.abs(score.high - high)).toBeLessThan(0.02);
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
