import { coverageInterval } from '../statistics/coverage-interval.ts';
import { Moments } from '../statistics/moments.ts';
import { orderStatisticInterval } from '../statistics/order-statistic-interval.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import type { FigureSpread } from './result.ts';

const quotedShares = [0.05, 0.5, 0.95];

/**
 * How a figure spreads over units: quantiles with order-statistic limits, which
 * assume nothing of its distribution, and the intervals that hold 95 % of drives
 * (JCGM 101:2008, 7.7). A unit that lost lock ranks beyond every other; of a signed
 * figure it does so at either end, so that losing units flatters no limit.
 *
 * @param values one for each unit, +∞ for a lost one; they are put in rising order
 */
export function figureSpread(values: Float64Array, signed: boolean, level: number): FigureSpread {
	const moments = new Moments();
	for (const value of values) if (Number.isFinite(value)) moments.add(value);
	const lost = values.length - moments.count;
	const lower = signed && lost > 0 ? values.map((value) => (value === Infinity ? -Infinity : value)).sort() : values;
	const upper = values.sort();
	const symmetric = [coverageInterval(lower, 0.95)?.low, coverageInterval(upper, 0.95)?.high];
	const shortest = coverageInterval(upper, 0.95, 'shortest');
	return {
		units: values.length,
		lost,
		mean: lost === 0 ? moments.mean : null,
		sd: lost === 0 && moments.count > 1 ? moments.sd : null,
		quantiles: quotedShares.map((share) => {
			const sorted = share < 0.5 ? lower : upper;
			const { ranks } = orderStatisticInterval(sorted, share, level);
			const bounded = ranks.low > 0 && ranks.high <= values.length;
			return {
				share,
				value: quantileOfSorted(sorted, share),
				interval: bounded ? [lower[ranks.low - 1] as number, upper[ranks.high - 1] as number] : null,
			};
		}),
		symmetric: symmetric[0] === undefined || symmetric[1] === undefined ? null : [symmetric[0], symmetric[1]],
		shortest: shortest && [shortest.low, shortest.high],
	};
}
