import { inverseBeta } from '../maths/inverse-beta.ts';
import { clopperPearsonLower, clopperPearsonUpper } from './clopper-pearson.ts';
import { checkLevel, checkWhole, type Interval } from './interval.ts';
import { successRunShare } from './success-run.ts';
import { unitsNeeded } from './units-needed.ts';

export type Decision = 'holds' | 'fails' | 'undecided';

/** What became of a study's units. */
export interface Outcomes {
	readonly passed: number;
	readonly failed: number;
	/** Units without a result; they count against either decision. */
	readonly notSimulated?: number;
}

export interface Verdict {
	readonly decision: Decision;
	/** Passing share seen, units not simulated counted as failing; NaN without units. */
	readonly share: number;
	/** Exact one-sided limits, each with the confidence asked; units not simulated count as failing in `low`, as passing in `high`. */
	readonly low: number;
	readonly high: number;
	/** About how many more units would decide it if they pass at the share seen; 0 where decided, null where no number within reach would. */
	readonly moreUnits: number | null;
	/** Share shown with the confidence by a run without a failure; null where there was one. */
	readonly successRun: number | null;
}

/**
 * Whether at least `requiredShare` of all units would pass: *holds* where the
 * exact lower limit (Clopper–Pearson) reaches it, *fails* where the upper one
 * stays below it. Each is wrong with probability of at most 1 − confidence, for
 * a number of units fixed beforehand.
 */
export function verdict(
	{ passed, failed, notSimulated = 0 }: Outcomes,
	requiredShare: number,
	confidence = 0.95,
): Verdict {
	checkOutcomes({ passed, failed, notSimulated }, requiredShare);
	checkLevel(confidence);
	const units = passed + failed + notSimulated;
	const { low, high } = limitsOf(passed, notSimulated, units, confidence);
	const decision = decide({ low, high }, requiredShare);
	return {
		decision,
		share: passed / units,
		low,
		high,
		moreUnits: decision === 'undecided' ? moreUnits(passed, units, requiredShare, confidence) : 0,
		successRun: failed + notSimulated === 0 && units > 0 ? successRunShare(units, confidence) : null,
	};
}

/**
 * The decisions that `verdict` can come to after `units` in all, of which `outcomes` are known: the one if all
 * others fail, and the one if all pass. Where the two are the same, no others are needed.
 *
 * @throws RangeError where fewer units are asked for than are known
 */
export function decisionsAhead(
	{ passed, failed, notSimulated = 0 }: Outcomes,
	units: number,
	requiredShare: number,
	confidence = 0.95,
): { readonly worst: Decision; readonly best: Decision } {
	const ahead = units - passed - failed - notSimulated;
	checkWhole(ahead, 'units ahead');
	checkOutcomes({ passed, failed, notSimulated }, requiredShare);
	const decisionOf = (passing: number): Decision =>
		decide(limitsOf(passing, notSimulated, units, confidence), requiredShare);
	return { worst: decisionOf(passed), best: decisionOf(passed + ahead) };
}

/** @throws RangeError where the numbers are no counts or the share none */
export function checkOutcomes({ passed, failed, notSimulated }: Required<Outcomes>, requiredShare: number): void {
	checkWhole(passed, 'passed');
	checkWhole(failed, 'failed');
	checkWhole(notSimulated, 'not simulated');
	checkLevel(requiredShare, 'required share');
}

/** Exact one-sided limits of the passing share; units not simulated count as failing in the lower one, as passing in the upper. */
const limitsOf = (passed: number, notSimulated: number, units: number, confidence: number): Interval => ({
	low: clopperPearsonLower(passed, units, confidence),
	high: clopperPearsonUpper(passed + notSimulated, units, confidence),
});

export function decide({ low, high }: Interval, requiredShare: number): Decision {
	if (low >= requiredShare) return 'holds';
	return high < requiredShare ? 'fails' : 'undecided';
}

/**
 * How many more, to about 1 %, at the share seen. Passing units are counted in
 * broken numbers, of which the limits' beta quantiles make sense too: rounding
 * would make the answer jump by a failure's worth of units.
 */
function moreUnits(passed: number, units: number, requiredShare: number, confidence: number): number | null {
	const share = units === 0 ? 1 : passed / units;
	const decides = (total: number): boolean => {
		const passing = share * total;
		return share > requiredShare
			? passing >= 1 && inverseBeta(1 - confidence, passing, total - passing + 1) >= requiredShare
			: total - passing >= 1 && inverseBeta(confidence, passing + 1, total - passing) < requiredShare;
	};
	return unitsNeeded(units, decides);
}
