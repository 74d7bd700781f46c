import { choiceNames, type PerChoice } from '../drive/drive.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import { coarseHistograms } from './angle-histogram.ts';
import { choiceFigures, poolHistogram, unitValues } from './choice-figures.ts';
import { type StudyColumns, unitStates } from './merge.ts';
import { pairedFigures } from './paired-figures.ts';
import type { StudyPlan } from './plan.ts';
import { readingGridSpread } from './reading-grid.ts';
import type { ChoiceFigures, PointResult, StudyResult } from './result.ts';
import { sectorsPerHour } from './sectors-per-hour.ts';
import { pointSentence } from './sentence.ts';
import { version } from './version.ts';

/** Confidence level of every interval. */
const level = 0.95;

const methods = {
	'rates per sector': 'ratio of events to sectors, drives as clusters, Student interval corrected for skewness',
	'rates without an event': 'exact one-sided Clopper–Pearson bound on the share of drives affected',
	'quantiles over drives': 'order statistics, exact, free of any distribution',
	'difference in pairs': 'median of half-bus minus virtual neutral on the same drives, order-statistic interval',
	'better choice': 'exact two-sided sign test over drives',
	'quantiles of commutations': 'pooled counts in bins of 0.01°, no interval: sectors of one drive are not independent',
};

interface Surroundings {
	readonly scenarioDigest: string;
	readonly resultDigest: string;
	/** True where the study was cut short. */
	readonly partial: boolean;
	readonly warnings: readonly string[];
}

/** The study's figures from its columns. Units count in the order of their index, so that no digit hangs on how they were shared out. */
export function summarise(plan: StudyPlan, study: StudyColumns, surroundings: Surroundings): StudyResult {
	const { scenario, seed, compensation } = plan;
	const finished = indicesOf(study.states, unitStates.finished);
	const failures = [...study.failures].sort((one, other) => one.unit - other.unit);
	return {
		format: 'anglespread-study',
		formatVersion: 1,
		provenance: {
			version,
			seed,
			scenario: scenario.name,
			scenarioDigest: surroundings.scenarioDigest,
			resultDigest: surroundings.resultDigest,
			units: { asked: study.units, finished: finished.length, failed: failures.length },
			partial: surroundings.partial,
			failures,
			compensation,
			level,
			methods,
			warnings: surroundings.warnings,
		},
		points: scenario.points.map((_, point) => pointResult(scenario, study, finished, point)),
	};
}

function pointResult(scenario: Scenario, study: StudyColumns, finished: Uint32Array, point: number): PointResult {
	const { name = '', values: conditions = {} } = scenario.points[point] ?? {};
	const values = { ...scenario.values, ...conditions };
	const hourly = sectorsPerHour(scenario, scenario.points[point] as OperatingPoint);
	const histograms = coarseHistograms(choiceNames.map((_, choice) => poolHistogram(study, point, choice)));
	const choices = Object.fromEntries(
		choiceNames.map((choiceName, choice) => [
			choiceName,
			{
				...choiceFigures({ study, finished, point, choice, sectorsPerHour: hourly, level }),
				histogram: histograms[choice],
			},
		]),
	) as unknown as PerChoice<ChoiceFigures>;
	const [halfBus, virtualNeutral] = [0, 1].map((choice) =>
		unitValues({ study, finished, point, choice }, 'unitError'),
	) as [Float64Array, Float64Array];
	const paired = pairedFigures(halfBus, virtualNeutral, level);
	const sentence = pointSentence({ point: name, level, choices, paired, gridSpread: readingGridSpread(values) });
	return { name, conditions, choices, paired: { ...paired, sentence } };
}

function indicesOf(states: Uint8Array, state: number): Uint32Array {
	const indices = new Uint32Array(states.length);
	let found = 0;
	for (let unit = 0; unit < states.length; unit += 1) {
		if (states[unit] === state) {
			indices[found] = unit;
			found += 1;
		}
	}
	return indices.subarray(0, found);
}
