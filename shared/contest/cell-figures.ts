import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { binomialConfidenceSequence } from '../statistics/binomial-confidence-sequence.ts';
import { medianDifference } from '../statistics/median-difference.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import { sequentialVerdict } from '../statistics/sequential-verdict.ts';
import { unitValues } from '../study/choice-figures.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';
import { requirementOf, unitJudge } from '../study/unit-passes.ts';
import type { CellChoice, CellFigures } from './contest-result.ts';

/**
 * Which choice has the smaller error in more than half of the units that
 * differ, from the units done so far: a confidence sequence for that share
 * (prior mean ½), so that a cell may be looked at after every unit. Units that
 * could not be simulated count against either choice.
 *
 * @param scenario the cell's own, with its one point
 * @param level of this cell; for a statement on a whole map 1 − (1 − level)/cells
 * @returns null where no unit is finished
 */
export function cellFigures(scenario: Scenario, study: StudyColumns, level: number): CellFigures | null {
	const finished = finishedUnits(study);
	if (finished.length === 0) return null;
	const errors = choiceNames.map((_, choice) => unitValues({ study, finished, point: 0, choice }, 'unitError'));
	const [halfBus, virtualNeutral] = errors as [Float64Array, Float64Array];
	const { median, firstSmaller, secondSmaller, ties } = medianDifference(halfBus, virtualNeutral);
	const failed = study.failures.length;
	const differing = firstSmaller + secondSmaller + failed;
	const low = binomialConfidenceSequence(firstSmaller, differing, level).low;
	const high = binomialConfidenceSequence(firstSmaller + failed, differing, level).high;
	const judge = unitJudge(scenario);
	const { share, confidence } = requirementOf(scenario);
	const of = (choice: number): CellChoice => {
		const passed = finished.filter((unit) => judge.passes(study.columns, unit, choice)).length;
		const counts = { passed, failed: finished.length - passed, notSimulated: failed };
		return {
			medianError: quantileOfSorted(Float64Array.from(errors[choice] as Float64Array).sort(), 0.5),
			passed,
			decision: sequentialVerdict(counts, share, confidence).decision,
		};
	};
	return {
		units: { finished: finished.length, failed },
		smaller: { halfBus: firstSmaller, virtualNeutral: secondSmaller },
		ties,
		share: { low, high },
		better: low > 0.5 ? 'halfBus' : high < 0.5 ? 'virtualNeutral' : 'not shown',
		medianDifference: median,
		choices: perChoice((_, choice) => of(choice)),
	};
}
