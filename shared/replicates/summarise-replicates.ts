import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import {
	type ReplicateEstimate,
	replicateInterval,
	replicateQuantile,
	replicateShare,
	replicateShareDifference,
} from '../statistics/replicate-interval.ts';
import { confidenceLevel } from '../study/confidence-level.ts';
import { lessOther, type ReplicateFigures } from './replicate-figures.ts';
import type { ComparedFigure, ReplicatedPoint, ReplicatesResult } from './replicates-result.ts';

export const replicateMethods: Readonly<Record<string, string>> = {
	intervals: "Student's t over the replicates, which are independent of one another; the drives within one are not",
	'passing shares':
		'of all drives, those that could not be simulated not passing; no interval where fewer than 10 pass or fail, nor of a difference of fewer',
	'mean errors': 'over the drives that were simulated; none where one lost lock',
	'95 % of drives':
		"quantile of all drives; interval by the replicates' shares below it (Woodruff), drives that lost lock beyond any angle",
	verdict: 'none: exact limits on a passing share need independent draws',
};

/** The study's figures from its whole replicates. @param units of each replicate */
export function summariseReplicates(
	scenario: Scenario,
	replicates: readonly ReplicateFigures[],
	units: number,
): Pick<ReplicatesResult, 'passing' | 'points'> {
	const shares = (of: (figures: ReplicateFigures) => PerChoice<number>): ComparedFigure =>
		compared(replicates.map(of), units);
	return {
		passing: shares(({ passed }) => passed),
		points: scenario.points.map(({ name, values }, place): ReplicatedPoint => {
			const at = (figures: ReplicateFigures) => figures.points[place] as ReplicateFigures['points'][0];
			return {
				name,
				conditions: values,
				passing: shares((figures) => at(figures).passed),
				meanError: compared(replicates.map((figures) => at(figures).meanError)),
				error95: compared(replicates.map((figures) => at(figures).error95)),
				worse: perChoice((choice) =>
					replicateQuantile(
						replicates.map((figures) => at(figures).errors[choice]),
						0.95,
						confidenceLevel,
					),
				),
			};
		}),
	};
}

/** @param units of each replicate, where the figures are counts of them */
function compared(values: readonly PerChoice<number>[], units?: number): ComparedFigure {
	const estimate = (figures: readonly number[]): ReplicateEstimate =>
		units === undefined ? replicateInterval(figures, confidenceLevel) : replicateShare(figures, units, confidenceLevel);
	const differences = values.map(lessOther);
	return {
		...perChoice((choice) => estimate(values.map((each) => each[choice]))),
		difference:
			units === undefined
				? replicateInterval(differences, confidenceLevel)
				: replicateShareDifference(differences, units, confidenceLevel),
	};
}
