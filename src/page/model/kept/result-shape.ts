import type { PerChoice } from '../../../../shared/drive/drive.ts';
import type { Decision } from '../../../../shared/statistics/verdict.ts';
import type {
	ChoiceFigures,
	ChoiceVerdict,
	ComputedRate,
	FigureSpread,
	PairedFigure,
	PairedFigures,
	PairedRates,
	PassingPairs,
	PointResult,
	Provenance,
	RateFigure,
	StudyResult,
	WorstUnit,
} from '../../../../shared/study/result.ts';
import { type UnitFigureName, unitFigureNames } from '../../../../shared/study/unit-figures.ts';
import { type Shortcoming, shortcomings } from '../../../../shared/study/unit-passes.ts';
import { type Check, count, dictionary, flag, list, number, object, one, orNull, pair, text } from './shape.ts';

/* What a study's result looks like, field by field: a stored one is shown only if it does. */

const sentence = text(4000);
const word = text(300);
const interval = orNull(pair(number));
const better = one('halfBus', 'virtualNeutral', 'not shown');

const perChoice = <T>(check: Check<T>): Check<PerChoice<T>> => object({ halfBus: check, virtualNeutral: check });
const events = <T>(check: Check<T>): Check<Readonly<Record<'early' | 'late' | 'missed', T>>> =>
	object({ early: check, late: check, missed: check });
const unitFigures = <T>(check: Check<T>): Check<Readonly<Record<UnitFigureName, T>>> =>
	object(Object.fromEntries(unitFigureNames.map((name) => [name, check])) as Record<UnitFigureName, Check<T>>);

const spread = object<FigureSpread>({
	units: count,
	lost: count,
	mean: orNull(number),
	sd: orNull(number),
	quantiles: list(object({ share: number, value: number, interval }), 20),
	symmetric: interval,
	shortest: interval,
});

const rate = object<RateFigure>({
	count,
	rate: number,
	low: number,
	high: number,
	perHour: number,
	boundOn: one('sectors', 'units'),
});

const computed = object<ComputedRate>({
	rate: number,
	perHour: number,
	interval,
	effective: number,
	largestShare: number,
	largestUnit: orNull(number),
	gain: orNull(number),
});

const passingPairs = {
	units: count,
	both: count,
	only: perChoice(count),
	neither: count,
	difference: orNull(number),
	interval,
	p: number,
	better,
};

const pairedRates = object<PairedRates>({
	ratio: orNull(number),
	interval,
	withoutEvents: orNull(one('halfBus', 'virtualNeutral', 'both')),
	few: flag,
});

const choiceFigures = object<ChoiceFigures>({
	units: count,
	sectors: count,
	angleError: object({ mean: number, sd: number, quantiles: dictionary(number, 20), maxAbs: number }),
	unitError: object({ median: number, q95: number, medianInterval: interval, q95Interval: interval }),
	unitFigures: unitFigures(spread),
	passing: object({
		passed: count,
		shortcomings: object(
			Object.fromEntries(shortcomings.map((name) => [name, count])) as Record<Shortcoming, Check<number>>,
		),
	}),
	rates: events(rate),
	computed: orNull(object({ early: computed, late: computed, missed: computed, all: computed })),
	causes: object({ freewheel: count, noise: count, threshold: count }),
	lost: count,
	runs: count,
	meanTorque: number,
	torqueNotReached: count,
	sectorMeans: list(number, 6),
	worst: list(object<WorstUnit>({ unit: count, error: number, shortcoming: orNull(one(...shortcomings)) }), 100),
	histogram: object({ start: number, step: number, counts: list(number, 100_000) }),
});

const pairedFigures = object<PairedFigures>({
	units: count,
	medianDifference: orNull(number),
	interval,
	smaller: perChoice(count),
	ties: count,
	p: number,
	better,
	figures: unitFigures(object<PairedFigure>({ medianDifference: orNull(number), interval, p: number, better })),
	passing: object<PassingPairs>(passingPairs),
	rates: object({ counted: pairedRates, computed: orNull(pairedRates) }),
	sentence,
});

const verdict = object<ChoiceVerdict>({
	decision: one<Decision>('holds', 'fails', 'undecided'),
	share: number,
	low: number,
	high: number,
	moreUnits: orNull(number),
	successRun: orNull(number),
	passed: count,
	failed: count,
	notSimulated: count,
	limits: one('Clopper–Pearson', 'confidence sequence'),
	sentence,
});

const provenance = object<Provenance>({
	version: word,
	seed: word,
	scenario: word,
	scenarioDigest: text(64),
	resultDigest: text(64),
	units: object({ asked: count, finished: count, failed: count }),
	partial: flag,
	failures: list(object({ unit: count, message: sentence }), 1_000_000),
	compensation: perChoice(number),
	level: number,
	methods: dictionary(sentence, 50),
	warnings: list(sentence, 100),
});

/** A result as the page makes them: of a number of drives fixed beforehand. */
export const studyResultShape = object<StudyResult>({
	format: one('anglespread-study'),
	formatVersion: one(1),
	provenance,
	stopping: object({ rule: one('number') }) as Check<StudyResult['stopping']>,
	requirement: object({
		angleLimit: number,
		quantile: number,
		crossingsPerHour: number,
		share: number,
		confidence: number,
		sentence,
	}),
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
