import { orderStatisticInterval } from '../statistics/order-statistic-interval.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import type { ChoiceFigures } from './result.ts';

/**
 * The typical unit's error and the one that 1 unit in 20 exceeds, degrees.
 *
 * @param sorted errors of units in rising order, infinite where lock was lost
 */
export function unitErrorFigures(sorted: Float64Array, level: number): ChoiceFigures['unitError'] {
	const limits = (share: number): readonly [number, number] | null => {
		const { low, high, ranks } = orderStatisticInterval(sorted, share, level);
		return ranks.low === 0 || ranks.high > sorted.length ? null : [low, high];
	};
	return {
		median: quantileOfSorted(sorted, 0.5),
		q95: quantileOfSorted(sorted, 0.95),
		medianInterval: limits(0.5),
		q95Interval: limits(0.95),
	};
}
