import { bernsteinLimits } from '../statistics/bernstein-limits.ts';
import type { Interval } from '../statistics/interval.ts';
import { unevenMean } from '../statistics/uneven-mean.ts';
import type { Decision } from '../statistics/verdict.ts';
import type { Requirement } from '../study/unit-passes.ts';

/** Whether few enough drives fail. */
export interface FailingVerdict {
	readonly decision: Decision;
	/** One-sided limits of the failing share, each with the requirement's confidence. */
	readonly low: number;
	readonly high: number;
	/** `draws`: those of the weighted mean. `bound`: too few draws carry it, and the limits are those that hold for any weights up to their largest. */
	readonly limits: 'draws' | 'bound';
}

/**
 * Draws that could not be simulated count against either decision: as failing in the upper limit, as passing in the
 * lower one.
 *
 * @param failing each draw's weight where it fails or could not be simulated, else 0
 * @param shown the same where it is known to fail
 * @param heaviest no weight can exceed it: the inverse of the share of ordinary draws
 */
export function failingVerdict(
	{ failing, shown }: { readonly failing: Float64Array; readonly shown: Float64Array },
	heaviest: number,
	{ share, confidence }: Pick<Requirement, 'share' | 'confidence'>,
): FailingVerdict {
	const { high, limits } = failingLimits(failing, heaviest, confidence);
	const { low } = failingLimits(shown, heaviest, confidence);
	const allowed = 1 - share;
	const decision = high <= allowed ? 'holds' : low > allowed ? 'fails' : 'undecided';
	return { decision, low, high: Math.min(1, high), limits };
}

/** Limits of the failing share, each with the confidence. Weights that are all alike tell of no spread, and so of no limits of their own. */
export function failingLimits(
	weights: Float64Array,
	heaviest: number,
	confidence: number,
): Interval & Pick<FailingVerdict, 'limits'> {
	// two-sided limits of so much leave 1 − confidence beyond each
	const { interval } = unevenMean(weights, Math.max(0.01, 2 * confidence - 1));
	return interval && interval.low < interval.high
		? { ...interval, limits: 'draws' }
		: { ...bernsteinLimits(weights, heaviest, confidence), limits: 'bound' };
}
