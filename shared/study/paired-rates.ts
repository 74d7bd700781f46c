import { effectiveNumber, leastEffective } from '../statistics/effective-number.ts';
import { rateRatio } from '../statistics/rate-ratio.ts';
import { eventValues, unitValues } from './choice-figures.ts';
import type { PointPlace } from './point-place.ts';
import type { PairedRates } from './result.ts';

/** Groups of units that are resampled in place of single ones where there are more: their sums are as independent. */
const mostGroups = 1000;

interface UnitEvents {
	readonly events: Float64Array;
	readonly trials: Float64Array;
}

/**
 * Half-bus rate over virtual-neutral rate of early, late and missed crossings
 * together on the same units, with a bootstrap interval over units. Where either
 * has no events, resampling cannot show what was never seen and there is none;
 * nor where a few drives carry a computed rate.
 */
export function pairedRates(
	place: Pick<PointPlace, 'study' | 'finished' | 'point' | 'level' | 'resamples'>,
	kind: 'counted' | 'computed',
): PairedRates {
	const { level, resamples } = place;
	let few = false;
	const [halfBus, virtualNeutral] = [0, 1].map((choice) => {
		const at = { ...place, choice };
		const own = { events: eventValues(at, kind), trials: unitValues(at, 'sectors') };
		few ||= kind === 'computed' && effectiveNumber(own.events).effective < leastEffective;
		return grouped(own);
	}) as [UnitEvents, UnitEvents];
	const { ratio, interval, withoutEvents } = rateRatio(halfBus, virtualNeutral, { level, resamples });
	const words = { neither: null, first: 'halfBus', second: 'virtualNeutral', both: 'both' } as const;
	return {
		ratio: withoutEvents === 'both' ? null : ratio,
		interval: interval === null || few ? null : [interval.low, interval.high],
		withoutEvents: words[withoutEvents],
		few,
	};
}

/** Neighbouring units summed into at most 1000 groups. */
function grouped({ events, trials }: UnitEvents): UnitEvents {
	const size = Math.ceil(events.length / mostGroups);
	if (size < 2) return { events, trials };
	const groups = Math.ceil(events.length / size);
	const sums = { events: new Float64Array(groups), trials: new Float64Array(groups) };
	for (let unit = 0; unit < events.length; unit += 1) {
		const group = Math.floor(unit / size);
		sums.events[group] = (sums.events[group] as number) + (events[unit] as number);
		sums.trials[group] = (sums.trials[group] as number) + (trials[unit] as number);
	}
	return sums;
}
