import { describe, expect, it } from 'vitest';
import { orderStatisticInterval, orderStatisticRanks } from '../../shared/statistics/order-statistic-interval.ts';

describe('order-statistic interval', () => {
	it('has at least the level asked for every size from 1 to 200, and mirrors between p and 1 − p', () => {
		for (let n = 1; n <= 200; n++) {
			for (const p of [0.05, 0.5, 0.9]) {
				const ranks = orderStatisticRanks(n, p);
				expect(ranks.confidence).toBeGreaterThanOrEqual(0.95 - 1e-12);
				const mirrored = orderStatisticRanks(n, 1 - p);
				expect([mirrored.low, mirrored.high]).toEqual([n + 1 - ranks.high, n + 1 - ranks.low]);
			}
		}
	});

	it('lost units rank last: 3 of 20 leave the median bounded, 8 leave its upper limit at +∞', () => {
		const values = (lost: number): number[] => Array.from({ length: 20 }, (_, i) => (i < 20 - lost ? i : Infinity));
		expect(orderStatisticInterval(values(3), 0.5)).toMatchObject({ low: 5, high: 14 });
		expect(orderStatisticInterval(values(8), 0.5)).toMatchObject({ low: 5, high: Infinity });
	});

	it('five values bound no median at 95 %, none bound nothing, and wrong levels are refused', () => {
		expect(orderStatisticInterval([1, 2, 3, 4, 5], 0.5)).toMatchObject({ low: -Infinity, high: Infinity });
		expect(orderStatisticInterval([1, 2, 3, 4, 5, 6], 0.5)).toMatchObject({ low: 1, high: 6 });
		expect(orderStatisticInterval([], 0.5)).toMatchObject({ low: -Infinity, high: Infinity });
		expect(() => orderStatisticInterval([1], 1)).toThrow(RangeError);
	});
});
