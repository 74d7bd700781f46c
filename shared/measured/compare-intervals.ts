import { clusteredDifference } from '../statistics/clustered-difference.ts';
import { kolmogorovSmirnov } from '../statistics/kolmogorov-smirnov.ts';
import { correlation } from '../statistics/paired-limits.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import type { IntervalFigures, MeasuredAgainst } from './measured-result.ts';

type Drives = readonly Float64Array<ArrayBuffer>[];

/**
 * Measured drives against simulated ones, each with equally many intervals. The
 * intervals of one drive depend on each other (a late commutation makes one
 * longer and the next shorter, and a drive's parts move the same sectors in every
 * revolution), so whole drives are compared: their intervals together, by dealing
 * out drives anew; their spreads, a figure a drive, by the exact test for
 * independent values.
 */
export function compareIntervals(measured: Drives, simulated: Drives, level: number): Omit<MeasuredAgainst, 'lost'> {
	const shape = clusteredDifference(measured, simulated, { level: 1 - shownBelow(level) });
	const spreads = kolmogorovSmirnov(measured.map(spreadOf), simulated.map(spreadOf));
	return {
		figures: intervalFigures(simulated),
		shape,
		spreads,
		differs: Math.min(shape.p, spreads.p) < shownBelow(level),
	};
}

/** p below which a test shows a difference: the two of them share 1 − level. */
export const shownBelow = (level: number): number => (1 - level) / 2;

export function intervalFigures(drives: Drives): IntervalFigures {
	const all = Float64Array.from(drives.flatMap((values) => Array.from(values))).sort();
	const mean = (of: (values: Float64Array<ArrayBuffer>) => number): number =>
		drives.reduce((sum, values) => sum + of(values), 0) / drives.length;
	return {
		drives: drives.length,
		quantiles: Object.fromEntries([0.025, 0.25, 0.5, 0.75, 0.975].map((p) => [p, quantileOfSorted(all, p)])),
		spread: Math.sqrt(mean((values) => spreadOf(values) * spreadOf(values))),
		serial: mean((values) => correlation(values.subarray(0, -1), values.subarray(1))),
	};
}

/** Standard deviation of a drive's intervals about 60°, which is their mean. */
function spreadOf(values: Float64Array): number {
	let squares = 0;
	for (const value of values) squares += (value - 60) * (value - 60);
	return Math.sqrt(squares / values.length);
}
