import { binomialConfidenceSequence } from './binomial-confidence-sequence.ts';
import { unitsNeeded } from './units-needed.ts';
import { checkOutcomes, decide, type Outcomes, type Verdict } from './verdict.ts';

/**
 * As `verdict`, but from a confidence sequence, so that a study may look again
 * and again and stop as soon as it decides: the probability that it ever decides
 * wrongly, however often it looks, is at most 1 − confidence.
 *
 * The mixture is Beta(½ P/(1 − P), ½) with P the required share, fixed by it
 * before the study: its mean is P, its shape as open to the ends as a half unit
 * can make it. With P = 0.99 and confidence 0.95 a run without a failure holds
 * after 410 units (299 when the number is fixed beforehand).
 */
export function sequentialVerdict(
	{ passed, failed, notSimulated = 0 }: Outcomes,
	requiredShare: number,
	confidence = 0.95,
): Verdict {
	checkOutcomes({ passed, failed, notSimulated }, requiredShare);
	const units = passed + failed + notSimulated;
	const prior: readonly [number, number] = [(0.5 * requiredShare) / (1 - requiredShare), 0.5];
	const judge = (successes: number, lost: number, trials: number): Omit<Verdict, 'moreUnits'> => {
		const low = binomialConfidenceSequence(successes, trials, confidence, prior).low;
		const high = binomialConfidenceSequence(successes + lost, trials, confidence, prior).high;
		return { decision: decide({ low, high }, requiredShare), share: successes / trials, low, high, successRun: null };
	};
	const now = judge(passed, notSimulated, units);
	if (now.decision !== 'undecided') return { ...now, moreUnits: 0 };

	const share = units === 0 ? 1 : passed / units;
	const decides = (total: number): boolean => judge(Math.round(share * total), 0, total).decision !== 'undecided';
	return { ...now, moreUnits: unitsNeeded(units, decides) };
}
