import type { DrawFigures } from '../statistics/adaptive-monte-carlo.ts';
import type {
	ChoiceFigures,
	ChoiceVerdict,
	FigureSpread,
	PairDifferences,
	PairedFigure,
	PairedFigures,
	PairedRates,
	PassingPairs,
	PointResult,
	StudyResult,
	WorstUnit,
} from '../study/result.ts';
import { resultVersions } from '../study/result-version.ts';
import type { SettledFigure, StoppingOutcome } from '../study/stopping-rule.ts';
import { type UnitFigureName, unitFigureNames } from '../study/unit-figures.ts';
import { shortcomings } from '../study/unit-passes.ts';
import {
	computed,
	events,
	interval,
	perChoice,
	provenance,
	rate,
	sentence,
	shortcomingCounts,
	toldRequirement,
	unitError,
	verdictChecks,
	word,
} from './common-shapes.ts';
import { type Check, count, dictionary, figure, flag, list, number, object, one, optional, orNull } from './shape.ts';

/* What a study's result looks like, field by field: one that comes from outside is used only if it does. */

const better = one('halfBus', 'virtualNeutral', 'not shown');

const unitFigures = <T>(check: Check<T>): Check<Readonly<Record<UnitFigureName, T>>> =>
	object(Object.fromEntries(unitFigureNames.map((name) => [name, check])) as Record<UnitFigureName, Check<T>>);

const spread = object<FigureSpread>({
	units: count,
	lost: count,
	mean: orNull(figure),
	sd: orNull(figure),
	quantiles: list(object({ share: figure, value: figure, interval }), 20),
	symmetric: interval,
	shortest: interval,
});

const passingPairs = {
	units: count,
	both: count,
	only: perChoice(count),
	neither: count,
	difference: orNull(figure),
	interval,
	p: figure,
	better,
};

const pairedRates = object<PairedRates>({
	ratio: orNull(figure),
	interval,
	withoutEvents: orNull(one('halfBus', 'virtualNeutral', 'both')),
	few: flag,
});

const choiceFigures = object<ChoiceFigures>({
	units: count,
	sectors: count,
	angleError: object({ mean: figure, sd: figure, quantiles: dictionary(figure, 20), maxAbs: figure }),
	unitError,
	unitFigures: unitFigures(spread),
	passing: object({
		passed: count,
		shortcomings: shortcomingCounts,
	}),
	rates: events(rate),
	computed: orNull(object({ early: computed, late: computed, missed: computed, all: computed })),
	causes: object({ freewheel: count, noise: count, threshold: count }),
	lost: count,
	runs: count,
	meanTorque: figure,
	torqueNotReached: count,
	sectorMeans: list(figure, 6),
	worst: list(object<WorstUnit>({ unit: count, error: figure, shortcoming: orNull(one(...shortcomings)) }), 100),
	histogram: object({ start: number, step: number, counts: list(number, 100_000) }),
});

const pairedFigures = object<PairedFigures>({
	units: count,
	medianDifference: orNull(figure),
	interval,
	smaller: perChoice(count),
	ties: count,
	p: figure,
	better,
	differences: optional(
		object<PairDifferences>({
			start: number,
			step: number,
			counts: list(count, 1000),
			lost: object({ halfBus: count, virtualNeutral: count, both: count }),
		}),
	),
	figures: unitFigures(object<PairedFigure>({ medianDifference: orNull(figure), interval, p: figure, better })),
	passing: object<PassingPairs>(passingPairs),
	rates: object({ counted: pairedRates, computed: orNull(pairedRates) }),
	sentence,
});

const verdict = object<ChoiceVerdict>({
	...verdictChecks,
	passed: count,
	failed: count,
	notSimulated: count,
	limits: one('Clopper–Pearson', 'confidence sequence'),
	sentence,
});

const choice = one('halfBus', 'virtualNeutral');

const settledFigure = object<SettledFigure>({
	point: count,
	choice,
	tolerance: figure,
	errors: orNull(object<DrawFigures>({ mean: figure, sd: figure, low: figure, high: figure })),
	settled: flag,
	lost: flag,
});

type Stopping<Rule extends StoppingOutcome['rule']> = Extract<StoppingOutcome, { readonly rule: Rule }>;

/** By what ended the study. */
const stoppings: { readonly [Rule in StoppingOutcome['rule']]: Check<Stopping<Rule>> } = {
	number: object<Stopping<'number'>>({ rule: one('number') }),
	decided: object<Stopping<'decided'>>({
		rule: one('decided'),
		ceiling: count,
		choices: list(choice, 2),
		looks: list(count, 1000),
		reached: flag,
	}),
	settled: object<Stopping<'settled'>>({
		rule: one('settled'),
		ceiling: count,
		digits: count,
		batch: count,
		figures: list(settledFigure, 1000),
		reached: flag,
	}),
};
const rule = one(...(Object.keys(stoppings) as (keyof typeof stoppings)[]));

/** A study's result of any version that is read. */
export const studyResultShape = object<StudyResult>({
	format: one('anglespread-study'),
	formatVersion: one(...resultVersions),
	provenance,
	stopping: (value, path) => object({ rule })(value, path) ?? stoppings[(value as StoppingOutcome).rule](value, path),
	requirement: toldRequirement,
	verdict: perChoice(verdict),
	comparison: object<PassingPairs & { readonly sentence: string }>({ ...passingPairs, sentence }),
	points: list(
		object<PointResult>({
			name: word,
			conditions: dictionary(number, 100),
			choices: perChoice(choiceFigures),
			paired: pairedFigures,
		}),
		20,
	),
});
