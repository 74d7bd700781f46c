import type { Interval } from './interval.ts';
import { correlation, type Estimate, pairedLimits } from './paired-limits.ts';
import type { Change } from './quantile-change.ts';
import type { UnitCounts } from './rate-ratio.ts';
import { ratioEstimate } from './ratio-estimate.ts';

interface RateChangeOptions {
	readonly level?: number;
	readonly paired?: boolean;
	readonly estimate?: (
		events: ArrayLike<number>,
		trials: ArrayLike<number>,
		level: number,
	) => Interval & { readonly ratio: number };
	/** What a rate per trial is multiplied by, before and after: trials in an hour. 1 if not given. */
	readonly scale?: readonly [before: number, after: number];
}

/**
 * Change of an event rate between two states of the same units (or, not
 * `paired`, of different ones): each rate with its limits over units, put
 * together by `pairedLimits` with the correlation of the units' residuals
 * y − Rx. Null where either saw no event: there is no rate to bound then, only a
 * share of units.
 *
 * @param options.estimate the limits of one rate; another than that of counts where events are chances
 */
export function rateChange(
	before: UnitCounts,
	after: UnitCounts,
	{ level = 0.95, paired = true, estimate = ratioEstimate, scale = [1, 1] }: RateChangeOptions = {},
): Change | null {
	const first = estimate(before.events, before.trials, level);
	const second = estimate(after.events, after.trials, level);
	if (!(first.ratio > 0) || !(second.ratio > 0)) return null;
	const residuals = ({ events, trials }: UnitCounts, ratio: number): number[] =>
		Array.from(events, (event, unit) => event - ratio * (trials[unit] as number));
	const r = paired ? correlation(residuals(before, first.ratio), residuals(after, second.ratio)) : 0;
	const scaled = ({ ratio, low, high }: typeof first, by: number): Estimate => ({
		value: by * ratio,
		low: by * low,
		high: by * high,
	});
	const [was, is] = [scaled(first, scale[0]), scaled(second, scale[1])];
	return { before: was.value, after: is.value, change: is.value - was.value, ...pairedLimits(was, is, r) };
}
