import { expect, test } from 'vitest';
import { apartDifference } from '../../shared/statistics/apart-difference.ts';
import { shareDifference } from '../../shared/statistics/share-difference.ts';
import { wilsonInterval } from '../../shared/statistics/wilson-interval.ts';

test('of two shares with score intervals it is Newcombe’s interval for independent shares', () => {
	// R. G. Newcombe, Statistics in Medicine 17 (1998) 873–890, method 10, through share-difference.ts
	for (const [x1, n1, x2, n2] of [
		[56, 70, 48, 80],
		[9, 10, 3, 10],
		[928, 1000, 991, 1000],
	] as const) {
		const bounded = (x: number, n: number) => {
			const { low, high } = wilsonInterval(x, n, 0.95);
			return { value: x / n, interval: [low, high] as const };
		};
		const { low, high, change } = apartDifference(bounded(x2, n2), bounded(x1, n1));
		const expected = shareDifference(x1, n1, x2, n2, 0.95);
		expect(change).toBeCloseTo(x1 / n1 - x2 / n2, 12);
		expect(low).toBeCloseTo(expected.low, 12);
		expect(high).toBeCloseTo(expected.high, 12);
	}
});

test('a figure without an interval, or of a lost drive, has a change without limits', () => {
	const known = { value: 3, interval: [2, 5] as const };
	expect(apartDifference({ value: 1, interval: null }, known)).toMatchObject({
		change: 2,
		low: -Infinity,
		high: Infinity,
	});
	expect(apartDifference(known, { value: Infinity, interval: [4, Infinity] })).toMatchObject({
		change: Infinity,
		low: -Infinity,
	});
});
