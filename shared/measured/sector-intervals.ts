import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import type { StudyPlan } from '../study/plan.ts';
import type { UnitFailure } from '../study/run-shard.ts';
import { unitDrives } from '../study/unit-drives.ts';
import { errorMessage } from '../words/error-message.ts';

/** Sectors of one electrical revolution. */
export const revolution = 6;

/** What is to be simulated: one start of each unit at one point, with a sector more than intervals. */
export interface IntervalPlan {
	readonly plan: StudyPlan;
	/** A whole number of revolutions. */
	readonly intervals: number;
}

export interface SectorIntervals {
	readonly from: number;
	readonly to: number;
	/** [unit][choice][interval], degrees of the unit's own revolutions; NaN where it lost lock. */
	readonly intervals: Float64Array<ArrayBuffer>;
	readonly failures: readonly UnitFailure[];
}

/**
 * The times between commutations of units `from` up to `to`, each as degrees of
 * the revolution it is in. At the constant speed of a run a sector takes
 * 60° + ε(j + 1) − ε(j), with ε the angle errors.
 */
export function sectorIntervals(
	{ plan, intervals: count }: IntervalPlan,
	from: number,
	to: number,
	report: (done: number) => void = () => {},
): SectorIntervals {
	const intervals = new Float64Array((to - from) * choiceNames.length * count).fill(Number.NaN);
	const failures: UnitFailure[] = [];
	for (let unit = from; unit < to; unit += 1) {
		try {
			for (const { drive, noise } of unitDrives(plan, unit)) {
				const pair = simulatePair(drive, noise);
				for (const [c, choice] of choiceNames.entries()) {
					const { errors, lost } = pair[choice as ChoiceName];
					if (lost || errors.length <= count) continue;
					const own = Float64Array.from({ length: count }, (_, j) => 60 + (errors[j + 1] ?? 0) - (errors[j] ?? 0));
					intervals.set(inOwnRevolutions(own), ((unit - from) * choiceNames.length + c) * count);
				}
			}
		} catch (error) {
			failures.push({ unit, message: errorMessage(error) });
		}
		report(unit + 1 - from);
	}
	return { from, to, intervals, failures };
}

/** Each interval as degrees of the electrical revolution it is in, 360 · interval/Σ of its six: free of unit and of the speed's slow changes. */
export function inOwnRevolutions(intervals: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
	const degrees = new Float64Array(intervals.length - (intervals.length % revolution));
	for (let first = 0; first < degrees.length; first += revolution) {
		let sum = 0;
		for (let j = 0; j < revolution; j += 1) sum += intervals[first + j] as number;
		for (let j = 0; j < revolution; j += 1) degrees[first + j] = (360 * (intervals[first + j] as number)) / sum;
	}
	return degrees;
}
