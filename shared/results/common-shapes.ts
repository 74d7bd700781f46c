import type { PerChoice } from '../drive/drive.ts';
import type { Decision, Verdict } from '../statistics/verdict.ts';
import type { ChoiceFigures, ComputedRate, Provenance, RateFigure } from '../study/result.ts';
import { type Requirement, type Shortcoming, shortcomings } from '../study/unit-passes.ts';
import type { EventKind } from '../words/names.ts';
import {
	type Check,
	count,
	dictionary,
	figure,
	flag,
	list,
	number,
	object,
	one,
	optional,
	orNull,
	pair,
	text,
} from './shape.ts';

/* What results of several kinds have in common. */

export const sentence = text(4000);
export const word = text(300);
export const interval = orNull(pair(figure));
export const perChoice = <T>(check: Check<T>): Check<PerChoice<T>> => object({ halfBus: check, virtualNeutral: check });
export const events = <T>(check: Check<T>): Check<Readonly<Record<EventKind, T>>> =>
	object({ early: check, late: check, missed: check });
export const unitError = object<ChoiceFigures['unitError']>({
	median: figure,
	q95: figure,
	medianInterval: interval,
	q95Interval: interval,
});

export const rate = object<RateFigure>({
	count,
	rate: figure,
	low: figure,
	high: figure,
	perHour: figure,
	boundOn: one('sectors', 'units'),
});

export const computed = object<ComputedRate>({
	rate: figure,
	perHour: figure,
	interval,
	effective: figure,
	largestShare: figure,
	largestUnit: orNull(count),
	gain: orNull(figure),
});

export const shortcomingCounts = object(
	Object.fromEntries(shortcomings.map((name) => [name, count])) as Record<Shortcoming, Check<number>>,
);

export const decision = one<Decision>('holds', 'fails', 'undecided');
export const verdictChecks = {
	decision,
	share: figure,
	low: figure,
	high: figure,
	moreUnits: orNull(figure),
	successRun: orNull(figure),
};
export const verdict = object<Verdict>(verdictChecks);

const requirementChecks = {
	angleLimit: number,
	quantile: number,
	crossingsPerHour: number,
	share: number,
	confidence: number,
};
export const requirement = object<Requirement>(requirementChecks);
export const toldRequirement = object<Requirement & { readonly sentence: string }>({ ...requirementChecks, sentence });

export const unitCounts = object<Provenance['units']>({ asked: count, finished: count, failed: count });

/** What every result rests on. */
export const originChecks = {
	version: word,
	seed: word,
	scenario: word,
	scenarioDigest: text(64),
	resultDigest: text(64),
	units: unitCounts,
	partial: flag,
	level: number,
	methods: dictionary(sentence, 50),
	warnings: list(sentence, 100),
	lostWorkers: optional(sentence),
};
export const provenance = object<Provenance>({
	...originChecks,
	failures: list(object({ unit: count, message: sentence }), 1_000_000),
	compensation: perChoice(number),
});
