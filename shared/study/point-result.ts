import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { OperatingPoint } from '../scenario/scenario.ts';
import { coarseHistograms } from './angle-histogram.ts';
import { choiceFigures, poolHistogram, unitValues } from './choice-figures.ts';
import { figuresOverUnits } from './figures-over-units.ts';
import type { StudyColumns } from './merge.ts';
import { pairDifferences } from './pair-differences.ts';
import { pairedRates } from './paired-rates.ts';
import { passingPairs } from './passing-pairs.ts';
import type { PointPlace } from './point-place.ts';
import { readingGridSpread } from './reading-grid.ts';
import type { ChoiceFigures, PointResult } from './result.ts';
import { sectorsPerHour } from './sectors-per-hour.ts';
import { pointSentence } from './sentence.ts';
import { type UnitFigureName, unitFigureNames } from './unit-figures.ts';
import { type Shortcoming, shortcomings, type UnitJudge, unitJudge } from './unit-passes.ts';
import { worstUnits } from './worst-units.ts';

/** Units a choice's list of the worst keeps. */
const worstKept = 12;

/** Both choices' figures at one operating point, alone and in pairs. */
export function pointResult(place: PointPlace): PointResult {
	const { scenario, study, finished, point, level } = place;
	const { name: pointName = '', values: conditions = {} } = scenario.points[point] ?? {};
	const values = { ...scenario.values, ...conditions };
	const judge = unitJudge(scenario);
	const hourly = sectorsPerHour(scenario, scenario.points[point] as OperatingPoint);
	const histograms = coarseHistograms(choiceNames.map((_, choice) => poolHistogram(study, point, choice)));
	const figures = figuresOverUnits(place);
	const choices = perChoice(
		(name, choice): ChoiceFigures => ({
			...choiceFigures({ study, finished, point, choice, sectorsPerHour: hourly, level }),
			unitFigures: perFigure((figure) => figures[figure].spread[name]),
			passing: passingAt(judge, study, finished, point, choice),
			worst: worstUnits(study, finished, { judge, point, choice, most: worstKept }),
			histogram: histograms[choice] as ChoiceFigures['histogram'],
		}),
	);
	const { paired } = figures.error95;
	const [halfBus, virtualNeutral] = choiceNames.map((_, choice) =>
		unitValues({ study, finished, point, choice }, 'unitError'),
	) as [Float64Array, Float64Array];
	const sentence = pointSentence({
		point: pointName,
		level,
		choices,
		paired,
		torque: values['operation.torque'] as number,
		gridSpread: readingGridSpread(values),
	});
	const passing = passingPairs(
		finished.length,
		(unit, choice) => judge.passesPoint(study.columns, finished[unit] as number, point, choice),
		level,
	);
	const isComputed = choices.halfBus.computed !== null && choices.virtualNeutral.computed !== null;
	return {
		name: pointName,
		conditions,
		choices,
		paired: {
			...paired,
			differences: pairDifferences(halfBus, virtualNeutral),
			sentence,
			figures: perFigure((figure) => {
				const { medianDifference, interval, p, better } = figures[figure].paired;
				return { medianDifference, interval, p, better };
			}),
			passing,
			rates: {
				counted: pairedRates(place, 'counted'),
				computed: isComputed ? pairedRates(place, 'computed') : null,
			},
		},
	};
}

const perFigure = <T>(make: (name: UnitFigureName) => T): Record<UnitFigureName, T> =>
	Object.fromEntries(unitFigureNames.map((name) => [name, make(name)])) as Record<UnitFigureName, T>;

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
