import { clopperPearsonUpper } from '../statistics/clopper-pearson.ts';
import { ratioEstimate } from '../statistics/ratio-estimate.ts';
import type { RateFigure } from './result.ts';

/**
 * A counted rate over units. Sectors of one unit share its parts and are not
 * independent: the interval is that of a ratio of sums over units. Without events
 * there is no spread to estimate from, and the bound is the exact one on the share
 * of affected units, from those that were looked at: a unit whose runs lost lock
 * before any sector was measured says nothing.
 *
 * @param events of each unit
 * @param sectors of each unit
 */
export function rateFigure(
	events: Float64Array,
	sectors: Float64Array,
	{ sectorsPerHour, level }: { readonly sectorsPerHour: number; readonly level: number },
): RateFigure {
	const count = events.reduce((sum, event) => sum + event, 0);
	if (count === 0) {
		const looked = sectors.reduce((units, own) => units + (own > 0 ? 1 : 0), 0);
		const high = clopperPearsonUpper(0, looked, level);
		return { count, rate: 0, low: 0, high, perHour: 0, boundOn: 'units' };
	}
	const { ratio, low, high } = ratioEstimate(events, sectors, level);
	return { count, rate: ratio, low, high, perHour: ratio * sectorsPerHour, boundOn: 'sectors' };
}
