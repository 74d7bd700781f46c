import { choiceNames } from '../drive/drive.ts';
import type { OperatingPoint } from '../scenario/scenario.ts';
import { coarseHistograms } from './angle-histogram.ts';
import { choiceFigures, poolHistogram, unitValues } from './choice-figures.ts';
import type { StudyColumns } from './merge.ts';
import { pairedFigures } from './paired-figures.ts';
import { pairedRates } from './paired-rates.ts';
import { pairedUnitFigures } from './paired-unit-figures.ts';
import { passingPairs } from './passing-pairs.ts';
import { perChoice } from './per-choice.ts';
import type { PointPlace } from './point-place.ts';
import { readingGridSpread } from './reading-grid.ts';
import type { ChoiceFigures, PointResult } from './result.ts';
import { sectorsPerHour } from './sectors-per-hour.ts';
import { pointSentence } from './sentence.ts';
import { type Shortcoming, shortcomings, type UnitJudge, unitJudge } from './unit-passes.ts';
import { worstUnits } from './worst-units.ts';

/** Units a choice's list of the worst keeps. */
const worstKept = 12;

/** Both choices' figures at one operating point, alone and in pairs. */
export function pointResult(place: PointPlace): PointResult {
	const { scenario, study, finished, point, level } = place;
	const { name = '', values: conditions = {} } = scenario.points[point] ?? {};
	const values = { ...scenario.values, ...conditions };
	const judge = unitJudge(scenario);
	const hourly = sectorsPerHour(scenario, scenario.points[point] as OperatingPoint);
	const histograms = coarseHistograms(choiceNames.map((_, choice) => poolHistogram(study, point, choice)));
	const choices = perChoice(
		(_, choice): ChoiceFigures => ({
			...choiceFigures({ study, finished, point, choice, sectorsPerHour: hourly, level }),
			passing: passingAt(judge, study, finished, point, choice),
			worst: worstUnits(study, finished, { judge, point, choice, most: worstKept }),
			histogram: histograms[choice] as ChoiceFigures['histogram'],
		}),
	);
	const unitErrors = [0, 1].map((choice) => unitValues({ study, finished, point, choice }, 'unitError'));
	const paired = pairedFigures(...(unitErrors as [Float64Array, Float64Array]), level);
	const sentence = pointSentence({ point: name, level, choices, paired, gridSpread: readingGridSpread(values) });
	const passing = passingPairs(
		finished.length,
		(unit, choice) => judge.passesPoint(study.columns, finished[unit] as number, point, choice),
		level,
	);
	const isComputed = choices.halfBus.computed !== null && choices.virtualNeutral.computed !== null;
	return {
		name,
		conditions,
		choices,
		paired: {
			...paired,
			sentence,
			figures: pairedUnitFigures(place),
			passing,
			rates: {
				counted: pairedRates(place, 'counted'),
				computed: isComputed ? pairedRates(place, 'computed') : null,
			},
		},
	};
}

/** Units that pass a point, and what keeps the others from it. */
function passingAt(
	judge: UnitJudge,
	{ columns }: StudyColumns,
	finished: Uint32Array,
	point: number,
	choice: number,
): ChoiceFigures['passing'] {
	const counts = Object.fromEntries(shortcomings.map((name) => [name, 0])) as Record<Shortcoming, number>;
	let passed = 0;
	for (const unit of finished) {
		const found = judge.shortcoming(columns, unit, point, choice);
		if (found === null) passed += 1;
		else counts[found] += 1;
	}
	return { passed, shortcomings: counts };
}
