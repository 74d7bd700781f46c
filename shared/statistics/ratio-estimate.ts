import { inverseGamma } from '../maths/inverse-gamma.ts';
import { clopperPearson } from './clopper-pearson.ts';
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
 * trials, with the standard error of a ratio of sums (ratio-of-sums.ts); what one
 * unit's trials share is in it.
 *
 * With v the estimated variance of Σy, the events come like Σy/k clusters of
 * k = v/Σy each (k = 1 for a Poisson count), and k times the gamma limits of so many
 * clusters bound them (M. P. Fay, E. J. Feuer, Statistics in Medicine 16 (1997)
 * 791–801; at k = 1 Garwood's exact ones). Half way between the limits at a cluster
 * more and a cluster less, in the manner of a mid-P value (M. P. Fay, S. Kim,
 * Biometrical Journal 59 (2017) 377–387), takes back what exactness costs.
 *
 * Lower limit: that of the clusters, half way from ten affected units on. Upper
 * limit: bursts make it by the skewness of what the units have (ratio-of-sums.ts),
 * single events by the clusters, half way from four affected units on; between them
 * the weight of the clusters is 1/√k [chosen, as both numbers, by the coverage counted].
 *
 * Coverage of 95 % limits (tests/statistics/coverage.json): 94.3 to 95.9 % where at
 * least ten units are expected to have events. Below that 94 to 99 %, and in the worst
 * region 77 %: two affected, where rare, far worse units carry most of the true rate.
 * A few affected units cannot tell how bad the next one would be; say how many they are.
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

	const { standardError, high } = ratioOfSums(events, trials, level);
	if (standardError === 0) return { ratio, standardError, ...clopperPearson(event, trial, level), boundOn: 'trials' };
	const size = (standardError * trial * (standardError * trial)) / event;
	const clusters = event / size;
	const below = (1 - level) / 2;
	const fewest = affected < 10 ? inverseGamma(below, clusters) : halfWay(below, clusters);
	const most = affected < 4 ? inverseGamma(1 - below, clusters + 1) : halfWay(1 - below, clusters);
	const single = Math.min(1, 1 / Math.sqrt(size));
	return {
		ratio,
		standardError,
		low: (size * fewest) / trial,
		high: Math.min(1, single * ((size * most) / trial) + (1 - single) * high),
		boundOn: 'trials',
	};
}

/** Limit of the mean number of clusters where so many were seen: half way between those exact if it is a lower and an upper one. */
const halfWay = (p: number, seen: number): number => (inverseGamma(p, seen) + inverseGamma(p, seen + 1)) / 2;

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
