import { choiceNames, type PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { cellsOf } from '../study/choice-figures.ts';
import { finishedUnits, type StudyColumns, unitStates } from '../study/merge.ts';
import { unitFigureValues } from '../study/unit-figures.ts';
import { unitJudge } from '../study/unit-passes.ts';

/** What is kept of one replicate. */
export interface ReplicateFigures {
	/** Whether every unit is done, failed ones included. */
	readonly isWhole: boolean;
	/** Units that pass every point; one that could not be simulated does not. */
	readonly passed: PerChoice<number>;
	readonly points: readonly {
		readonly passed: PerChoice<number>;
		/** Mean over the simulated units, degrees; not finite where one lost lock. */
		readonly meanError: PerChoice<number>;
		readonly error95: PerChoice<number>;
		/** 95 % quantile of each simulated unit's |angle errors|, degrees; infinite where it lost lock. */
		readonly errors: PerChoice<Float64Array>;
	}[];
}

export function replicateFigures(scenario: Scenario, study: StudyColumns): ReplicateFigures {
	const judge = unitJudge(scenario);
	const finished = finishedUnits(study);
	const passing = (passes: (unit: number, choice: number) => boolean): PerChoice<number> =>
		perChoice((_, choice) => finished.filter((unit) => passes(unit, choice)).length);
	return {
		isWhole: !study.states.includes(unitStates.pending),
		passed: passing((unit, choice) => judge.passes(study.columns, unit, choice)),
		points: scenario.points.map((_, point) => {
			const values = (name: 'mean' | 'error95'): PerChoice<Float64Array> =>
				perChoice((_, choice) => unitFigureValues(study.columns, cellsOf({ study, finished, point, choice }), name));
			const errors = values('error95');
			const means = values('mean');
			return {
				passed: passing((unit, choice) => judge.passesPoint(study.columns, unit, point, choice)),
				meanError: perChoice((choice) => mean(means[choice])),
				error95: perChoice((choice) => mean(errors[choice])),
				errors,
			};
		}),
	};
}

const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Half-bus minus virtual neutral. */
export const lessOther = (values: PerChoice<number>): number => values[choiceNames[0]] - values[choiceNames[1]];
