import type { PerChoice } from '../drive/drive.ts';
import type { Provenance } from '../study/result.ts';

/** A log of measured sector intervals against the predicted ones; command line and JSON. Intervals in degrees of their own electrical revolution. */
export interface MeasuredResult {
	readonly format: 'anglespread-measured';
	readonly formatVersion: 1;
	readonly provenance: Provenance;
	readonly point: string;
	/** Intervals of each drive that are compared, in a row: as many of each, measured and predicted. */
	readonly intervals: number;
	readonly log: {
		readonly drives: readonly { readonly name: string; readonly logged: number }[];
		readonly figures: IntervalFigures;
		/** Different values among the intervals as they were written: few where a timer is coarse. */
		readonly distinct: number;
	};
	/** Null where no simulated drive kept lock. */
	readonly choices: PerChoice<MeasuredAgainst | null>;
	readonly sentence: string;
}

export interface IntervalFigures {
	readonly drives: number;
	/** Of all drives' intervals together; keyed 0.025, 0.25, 0.5, 0.75, 0.975. */
	readonly quantiles: Readonly<Record<string, number>>;
	/** Within a drive: root mean square over drives of its standard deviation. */
	readonly spread: number;
	/** Correlation of each interval with the next one, mean over drives. */
	readonly serial: number;
}

export interface MeasuredAgainst {
	readonly figures: IntervalFigures;
	/** Simulated drives that lost lock, which no log holds. */
	readonly lost: number;
	/** Whole distribution: largest difference of cumulative shares, the interval at which it is, p by dealing out whole drives anew, and the difference that chance alone reaches. */
	readonly shape: { readonly d: number; readonly at: number; readonly p: number; readonly chance: number };
	/** Spreads of single drives, one figure a drive: two-sample Kolmogorov–Smirnov, exact. */
	readonly spreads: { readonly d: number; readonly p: number };
	/** Whether either p is below half of 1 − level. */
	readonly differs: boolean;
}
