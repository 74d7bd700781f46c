import { clopperPearson, clopperPearsonLower } from './clopper-pearson.ts';
import { checkLevel, type Interval } from './interval.ts';
import { ratioOfSums } from './ratio-of-sums.ts';

export interface RatioEstimate extends Interval {
	/** Events per trial; NaN without trials. */
	readonly ratio: number;
	/** Standard error over units; NaN with fewer than two. */
	readonly standardError: number;
	/** `trials`: the limits bound events per trial. `units`: no event was seen, and they bound the share of units with any. */
	readonly boundOn: 'trials' | 'units';
}

/**
 * Rate of events that cluster in units: R = Σy/Σx over units with y events in x
 * trials, with the standard error and skewness-corrected limits of a ratio of
 * sums (ratio-of-sums.ts); what one unit's trials share is in them. Rare events
 * are so skew that symmetric limits miss nearly always on one side. The lower
 * limit is at least the exact one on affected units over x̄.
 *
 * Coverage of 95 % limits (tests/statistics/coverage.json): 94 to 97 % where at
 * least ten units are expected to have events, 96 to 99 % for fewer that do not
 * cluster. The worst region is a few affected units in bursts: 94 % at three, and
 * 79 % at two where rare, far worse units carry most of the true rate. A few
 * affected units cannot tell how bad the next one would be; say how many they are.
 *
 * Without events: exact limits (Clopper–Pearson, 0 of n) on affected units.
 * Where the spread cannot be estimated (every unit alike): exact limits on the
 * pooled trials; with a single unit, [0, 1].
 *
 * @param events whole numbers, one for each unit
 * @param trials whole numbers, each at least the unit's events
 */
export function ratioEstimate(events: ArrayLike<number>, trials: ArrayLike<number>, level = 0.95): RatioEstimate {
	checkLevel(level);
	const units = events.length;
	const { event, trial, affected } = totals(events, trials);
	if (trial === 0) return { ratio: Number.NaN, standardError: Number.NaN, low: 0, high: 1, boundOn: 'trials' };
	const ratio = event / trial;
	if (event === 0) {
		return { ratio, standardError: units < 2 ? Number.NaN : 0, ...clopperPearson(0, units, level), boundOn: 'units' };
	}
	if (units < 2) return { ratio, standardError: Number.NaN, low: 0, high: 1, boundOn: 'trials' };

	const { standardError, low, high } = ratioOfSums(events, trials, level);
	if (standardError === 0) return { ratio, standardError, ...clopperPearson(event, trial, level), boundOn: 'trials' };
	// an affected unit has at least one event, so the rate is at least the share of affected units over x̄
	const lowest = (clopperPearsonLower(affected, units, (1 + level) / 2) * units) / trial;
	return {
		ratio,
		standardError,
		low: Math.max(low, lowest),
		high: Math.min(1, high),
		boundOn: 'trials',
	};
}

function totals(
	events: ArrayLike<number>,
	trials: ArrayLike<number>,
): { event: number; trial: number; affected: number } {
	if (events.length !== trials.length)
		throw new RangeError(`${events.length} units' events, ${trials.length} units' trials`);
	let event = 0;
	let trial = 0;
	let affected = 0;
	for (let unit = 0; unit < events.length; unit++) {
		const y = events[unit] as number;
		const x = trials[unit] as number;
		if (!(Number.isInteger(y) && Number.isInteger(x) && y >= 0 && y <= x)) {
			throw new RangeError(`unit ${unit}: ${y} events in ${x} trials`);
		}
		event += y;
		trial += x;
		if (y > 0) affected++;
	}
	return { event, trial, affected };
}
