import { medianDifference } from '../statistics/median-difference.ts';
import { signTest } from '../statistics/sign-test.ts';
import type { PairedFigures } from './result.ts';

/**
 * Both choices on the same units: half-bus minus virtual neutral of the units'
 * figures, lost ones (∞) worse than any. One is called better where the exact
 * sign test finds the split too uneven for chance at the level; the median
 * difference cannot then point the other way.
 *
 * @param halfBus the units' figures, in the same order as
 * @param virtualNeutral those of the other choice
 */
export function pairedFigures(
	halfBus: Float64Array,
	virtualNeutral: Float64Array,
	level: number,
): Omit<PairedFigures, 'sentence' | 'figures' | 'passing' | 'rates' | 'differences'> {
	const { median, interval, firstSmaller, secondSmaller, ties } = medianDifference(halfBus, virtualNeutral, level);
	const p = signTest(firstSmaller, secondSmaller);
	const isError = halfBus.length > 0 && !areMostLost(halfBus, virtualNeutral);
	// open on both sides with too few pairs; both limits at one infinity are those of a choice that lost nearly all
	const isBounded = interval.low > Number.NEGATIVE_INFINITY || interval.high < Number.POSITIVE_INFINITY;
	return {
		units: halfBus.length,
		medianDifference: isError ? median : null,
		interval: isError && isBounded ? [interval.low, interval.high] : null,
		smaller: { halfBus: firstSmaller, virtualNeutral: secondSmaller },
		ties,
		p,
		better: p < 1 - level ? (firstSmaller > secondSmaller ? 'halfBus' : 'virtualNeutral') : 'not shown',
	};
}

/** Whether most units lose lock with both choices: as ties they differ in nothing, but the middle one has no error to differ in. */
export function areMostLost(first: Float64Array, second: Float64Array): boolean {
	let lost = 0;
	for (const [i, error] of first.entries()) if (error === Infinity && second[i] === Infinity) lost += 1;
	return 2 * lost > first.length;
}
