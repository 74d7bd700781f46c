import { effectiveNumber, leastEffective } from '../statistics/effective-number.ts';
import type { Change } from '../statistics/quantile-change.ts';
import { rateChange } from '../statistics/rate-change.ts';
import { ratioOfSums } from '../statistics/ratio-of-sums.ts';
import { eventValues, unitValues } from './choice-figures.ts';
import type { StudyColumns } from './merge.ts';
import type { StudyPlan } from './plan.ts';
import { sectorsPerHour } from './sectors-per-hour.ts';

/** One side of a comparison. */
export interface Side {
	readonly plan: StudyPlan;
	readonly study: StudyColumns;
	readonly point: number;
	/** Units that are compared, rising: the same on both sides where they are paired. */
	readonly finished: Uint32Array;
}

/** A change of the crossings gone wrong in an operating hour, and how the rates were come by. */
export interface CrossingChange extends Change {
	readonly by: 'computed' | 'counted';
}

interface Options {
	/** Index into choiceNames. */
	readonly choice: number;
	readonly level: number;
	readonly paired: boolean;
}

/**
 * Change of the early, late and missed crossings in an operating hour: from the
 * computed chances where both sides have them, else from what was counted. Of
 * computed rates that a few drives carry no limits are given (see
 * computed-rate.ts); of counts of which either side saw none, or chances too
 * small to be computed, nothing.
 */
export function crossingChange(before: Side, after: Side, { choice, ...options }: Options): CrossingChange | null {
	const by = crossingsBy(before, after, choice);
	const isComputed = by === 'computed';
	const [first, second] = [before, after].map((side) => eventValues({ ...side, choice }, by)) as [
		Float64Array,
		Float64Array,
	];
	// chances of 1e-200 have no squares: worked in units of the largest
	const scale = isComputed ? largest(first, second) : 1;
	const counts = (side: Side, events: Float64Array) => ({
		events: events.map((value) => value / scale),
		trials: unitValues({ ...side, choice }, 'sectors'),
	});
	if (scale === 0 || (isComputed && Math.min(before.finished.length, after.finished.length) < 2)) return null;
	const change = rateChange(counts(before, first), counts(after, second), {
		...options,
		...(isComputed && { estimate: ratioOfSums }),
		scale: [hourly(before) * scale, hourly(after) * scale],
	});
	if (change === null) return null;
	const few = isComputed && [first, second].some((values) => effectiveNumber(values).effective < leastEffective);
	return {
		by,
		...change,
		...(few && { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }),
	};
}

/** How the rates of both sides are come by: computed where every drive has its chances. */
export function crossingsBy(before: Side, after: Side, choice: number): CrossingChange['by'] {
	const isComputed = [before, after].every((side) =>
		eventValues({ ...side, choice }, 'computed').every((chances) => chances >= 0),
	);
	return isComputed ? 'computed' : 'counted';
}

function hourly({ plan, point }: Side): number {
	const at = plan.scenario.points[point];
	return at ? sectorsPerHour(plan.scenario, at) : Number.NaN;
}

function largest(...lists: readonly Float64Array[]): number {
	let most = 0;
	for (const values of lists) for (const value of values) if (value > most) most = value;
	return most;
}
