import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { type Verdict, verdict } from '../statistics/verdict.ts';
import { eventValues, unitValues } from '../study/choice-figures.ts';
import { computedRate } from '../study/computed-rate.ts';
import { confidenceLevel } from '../study/confidence-level.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';
import { rateFigure } from '../study/rate-figure.ts';
import type { ChoiceFigures, ComputedRate, RateFigure } from '../study/result.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { unitErrorFigures } from '../study/unit-error-figures.ts';
import { requirementOf, unitJudge } from '../study/unit-passes.ts';

/** What a variant's units did, for both choices. */
export interface VariantFigures {
	readonly units: { readonly asked: number; readonly finished: number; readonly failed: number };
	readonly choices: PerChoice<VariantChoice>;
}

export interface VariantChoice {
	/** Units that pass every point of the variant, and what they show of the requirement. */
	readonly passed: number;
	readonly verdict: Verdict;
	/** Figure of a unit: the 95 % quantile of its |angle errors|, at the point where it is largest. */
	readonly unitError: ChoiceFigures['unitError'];
	/** Expected early, late and missed crossings in an operating hour, points by their share of the hours: counted, and computed from the noise (null where it cannot be). */
	readonly crossingsPerHour: { readonly counted: number; readonly computed: number | null };
	readonly points: readonly VariantPoint[];
}

export interface VariantPoint {
	readonly name: string;
	readonly sectors: number;
	/** Over all measured commutations, degrees. */
	readonly meanError: number;
	readonly unitError: ChoiceFigures['unitError'];
	/** Early, late and missed crossings together, as counted. */
	readonly counted: RateFigure;
	/** The same as computed; null where it cannot be. */
	readonly computed: ComputedRate | null;
	readonly lost: number;
	readonly torqueNotReached: number;
	readonly runs: number;
}

/** Figures of a variant from its columns; units that could not be simulated count as not passing. */
export function variantFigures(scenario: Scenario, study: StudyColumns): VariantFigures {
	const finished = finishedUnits(study);
	const failed = study.failures.length;
	return {
		units: { asked: study.units, finished: finished.length, failed },
		choices: perChoice((_, choice) => choiceOf(scenario, study, finished, choice)),
	};
}

function choiceOf(scenario: Scenario, study: StudyColumns, finished: Uint32Array, choice: number): VariantChoice {
	const { share, confidence } = requirementOf(scenario);
	const judge = unitJudge(scenario);
	const passed = finished.filter((unit) => judge.passes(study.columns, unit, choice)).length;
	const notSimulated = study.failures.length;
	const points = scenario.points.map((_, point) => pointOf(scenario, study, finished, point, choice));
	const worst = new Float64Array(finished.length);
	for (let point = 0; point < points.length; point += 1) {
		const errors = unitValues({ study, finished, point, choice }, 'unitError');
		for (let i = 0; i < worst.length; i += 1) worst[i] = Math.max(worst[i] as number, errors[i] as number);
	}
	return {
		passed,
		verdict: verdict({ passed, failed: finished.length - passed, notSimulated }, share, confidence),
		unitError: unitErrorFigures(worst.sort(), confidenceLevel),
		crossingsPerHour: {
			counted:
				hourlyMean(
					scenario,
					points.map(({ counted }) => counted.perHour),
				) ?? Number.NaN,
			computed: hourlyMean(
				scenario,
				points.map(({ computed }) => computed?.perHour ?? null),
			),
		},
		points,
	};
}

/** Mean of the points' figures by their share of the hours; null where a point has none. */
export function hourlyMean({ points }: Scenario, figures: readonly (number | null)[]): number | null {
	let sum = 0;
	let hours = 0;
	for (const [place, { values }] of points.entries()) {
		const weight = points.length === 1 ? 1 : (values['operation.share'] ?? 1);
		const figure = figures[place] as number | null;
		if (figure === null) return null;
		if (weight > 0) sum += weight * figure;
		hours += weight;
	}
	return hours > 0 ? sum / hours : null;
}

function pointOf(
	scenario: Scenario,
	study: StudyColumns,
	finished: Uint32Array,
	point: number,
	choice: number,
): VariantPoint {
	const operatingPoint = scenario.points[point];
	if (operatingPoint === undefined) throw new RangeError(`point ${point} of ${scenario.points.length}`);
	const place = { study, finished, point, choice };
	const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
	const perHour = sectorsPerHour(scenario, operatingPoint);
	const sectors = unitValues(place, 'sectors');
	const all = total(sectors);
	const chances = eventValues(place, 'computed');
	const isComputed = finished.length > 0 && chances.every((sum) => sum >= 0);
	return {
		name: operatingPoint.name,
		sectors: all,
		meanError: total(unitValues(place, 'errorSum')) / all,
		unitError: unitErrorFigures(unitValues(place, 'unitError').sort(), confidenceLevel),
		counted: rateFigure(eventValues(place, 'counted'), sectors, { sectorsPerHour: perHour, level: confidenceLevel }),
		computed: isComputed
			? computedRate(chances, sectors, { units: finished, sectorsPerHour: perHour, level: confidenceLevel })
			: null,
		lost: total(unitValues(place, 'lost')),
		torqueNotReached: total(unitValues(place, 'torqueNotReached')),
		runs: total(unitValues(place, 'runs')),
	};
}
