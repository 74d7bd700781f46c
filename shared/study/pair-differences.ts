import { roundStep } from '../maths/round-step.ts';
import type { PairDifferences } from './result.ts';

/** At most so many bins; pictures take several together. */
const mostBins = 400;

/**
 * How the two choices differ drive by drive: half-bus minus virtual neutral of
 * the units' figures, counted in bins that reach from the least difference to
 * the largest. Where a choice lost lock there is no difference in degrees.
 *
 * @param halfBus the units' figures (degrees; infinite where lock was lost), in the same order as
 * @param virtualNeutral those of the other choice
 */
export function pairDifferences(halfBus: ArrayLike<number>, virtualNeutral: ArrayLike<number>): PairDifferences {
	const lost = { halfBus: 0, virtualNeutral: 0, both: 0 };
	let least = Number.POSITIVE_INFINITY;
	let most = Number.NEGATIVE_INFINITY;
	for (let unit = 0; unit < halfBus.length; unit += 1) {
		const first = halfBus[unit] as number;
		const second = virtualNeutral[unit] as number;
		if (first === Number.POSITIVE_INFINITY) lost[second === first ? 'both' : 'halfBus'] += 1;
		else if (second === Number.POSITIVE_INFINITY) lost.virtualNeutral += 1;
		else {
			least = Math.min(least, first - second);
			most = Math.max(most, first - second);
		}
	}
	if (least > most) return { start: 0, step: 1, counts: [], lost };
	const step = roundStep(Math.max(most - least, 1e-6) / mostBins);
	const place = (difference: number): number => Math.floor(difference / step);
	const first = place(least);
	const counts = new Array<number>(place(most) - first + 1).fill(0);
	for (let unit = 0; unit < halfBus.length; unit += 1) {
		const difference = (halfBus[unit] as number) - (virtualNeutral[unit] as number);
		if (Number.isFinite(difference)) counts[place(difference) - first] = (counts[place(difference) - first] ?? 0) + 1;
	}
	return { start: first * step, step, counts, lost };
}
