import { correlation, pairedLimits } from './paired-limits.ts';
import type { Change } from './quantile-change.ts';
import type { UnitCounts } from './rate-ratio.ts';
import { ratioEstimate } from './ratio-estimate.ts';

/**
 * Change of an event rate between two states of the same units (or, not
 * `paired`, of different ones): each rate with its limits over units, put
 * together by `pairedLimits` with the correlation of the units' residuals
 * y − Rx. Null where either saw no event: there is no rate to bound then, only a
 * share of units.
 */
export function rateChange(
	before: UnitCounts,
	after: UnitCounts,
	{ level = 0.95, paired = true }: { readonly level?: number; readonly paired?: boolean } = {},
): Change | null {
	const first = ratioEstimate(before.events, before.trials, level);
	const second = ratioEstimate(after.events, after.trials, level);
	if (!(first.ratio > 0) || !(second.ratio > 0)) return null;
	const residuals = ({ events, trials }: UnitCounts, ratio: number): number[] =>
		Array.from(events, (event, unit) => event - ratio * (trials[unit] as number));
	const r = paired ? correlation(residuals(before, first.ratio), residuals(after, second.ratio)) : 0;
	const limits = pairedLimits({ value: first.ratio, ...first }, { value: second.ratio, ...second }, r);
	return {
		before: first.ratio,
		after: second.ratio,
		change: second.ratio - first.ratio,
		low: limits.low,
		high: limits.high,
	};
}
