import type { Cause, ChoiceName, PerChoice } from '../drive/drive.ts';
import type { Verdict } from '../statistics/verdict.ts';
import type { EventKind } from '../words/names.ts';
import type { Doubts } from './doubts.ts';
import type { ResultVersion } from './result-version.ts';
import type { StoppingOutcome } from './stopping-rule.ts';
import type { UnitFigureName } from './unit-figures.ts';
import type { Requirement, Shortcoming } from './unit-passes.ts';

/**
 * The one record that command line, page and report print from. Angles in
 * electrical degrees, torque in N·m, rates per measured sector.
 */
export interface StudyResult {
	readonly format: 'anglespread-study';
	/** Of this record and of the files it is kept in (`results/result-file.ts`). */
	readonly formatVersion: ResultVersion;
	readonly provenance: Provenance;
	/** What ended the study: the number of units asked, or what it found. */
	readonly stopping: StoppingOutcome;
	/** What had to hold, as the scenario states it. */
	readonly requirement: Requirement & { readonly sentence: string };
	/** Whether each choice meets it at every operating point. */
	readonly verdict: PerChoice<ChoiceVerdict>;
	/** Both choices' passing of every point on the same units, and which passes more in one sentence. */
	readonly comparison: PassingPairs & { readonly sentence: string };
	readonly points: readonly PointResult[];
}

export interface ChoiceVerdict extends Verdict {
	/** Units judged; those that could not be simulated count against either decision. */
	readonly passed: number;
	readonly failed: number;
	readonly notSimulated: number;
	/** Where `low` and `high` come from: a number of units fixed beforehand, or a study that stops by what it finds. */
	readonly limits: 'Clopper–Pearson' | 'confidence sequence';
	readonly sentence: string;
}

export interface Provenance extends Doubts {
	/** Version of this program. */
	readonly version: string;
	readonly seed: string;
	readonly scenario: string;
	/** SHA-256 (hex) of the resolved scenario in canonical JSON. */
	readonly scenarioDigest: string;
	/** SHA-256 (hex) of all per-unit columns, by unit index: equal digests mean equal results to the last bit. Empty while a study runs. */
	readonly resultDigest: string;
	readonly units: { readonly asked: number; readonly finished: number; readonly failed: number };
	/** True where the run was interrupted before all units were done. */
	readonly partial: boolean;
	/** The failed units, none left out. */
	readonly failures: readonly { readonly unit: number; readonly message: string }[];
	/** Delay compensation used, seconds. */
	readonly compensation: PerChoice<number>;
	/** Confidence level of every interval, and the method of each kind in words. */
	readonly level: number;
	readonly methods: Readonly<Record<string, string>>;
}

export interface PointResult {
	readonly name: string;
	/** The point's nominal conditions by parameter id. */
	readonly conditions: Readonly<Record<string, number>>;
	readonly choices: PerChoice<ChoiceFigures>;
	readonly paired: PairedFigures;
}

export interface ChoiceFigures {
	/** Units that finished. */
	readonly units: number;
	/** Measured sectors of all their starts. */
	readonly sectors: number;
	/** Over all measured commutations. */
	readonly angleError: {
		readonly mean: number;
		readonly sd: number;
		/** Keyed 0.005, 0.025, 0.5, 0.975, 0.995. */
		readonly quantiles: Readonly<Record<string, number>>;
		readonly maxAbs: number;
	};
	/** Per-unit figure: 95 % quantile of |angle error| over all its starts' sectors (a lost run ranks worse than any: infinite). */
	readonly unitError: {
		readonly median: number;
		readonly q95: number;
		/** Order-statistic limits of the two, [low, high]; null where too few units bound it. */
		readonly medianInterval: readonly [number, number] | null;
		readonly q95Interval: readonly [number, number] | null;
	};
	/** How each figure of a unit spreads over units, degrees. */
	readonly unitFigures: Readonly<Record<UnitFigureName, FigureSpread>>;
	/** Units that pass this point, and why others do not: the first reason that applies. */
	readonly passing: { readonly passed: number; readonly shortcomings: Readonly<Record<Shortcoming, number>> };
	readonly rates: Readonly<Record<EventKind, RateFigure>>;
	/** The same rates from the chances computed for every sector, and all three together; null where the majority window is too long to follow. */
	readonly computed: Readonly<Record<EventKind | 'all', ComputedRate>> | null;
	/** Causes of the early false crossings, counted. */
	readonly causes: Readonly<Record<Cause, number>>;
	/** Runs (unit × start) that lost lock. */
	readonly lost: number;
	readonly runs: number;
	readonly meanTorque: number;
	/** Runs that ended at full duty, more than 2 % short of the torque. */
	readonly torqueNotReached: number;
	/** Mean angle error of each sector kind 0…5 (open phase c↓ b↑ a↓ c↑ b↓ a↑). */
	readonly sectorMeans: readonly number[];
	/** The units with the largest `unitError`, the worst first. */
	readonly worst: readonly WorstUnit[];
	/** Counts of angle errors in bins of `step` degrees from `start`; the first and last bin take what lies beyond. */
	readonly histogram: { readonly start: number; readonly step: number; readonly counts: readonly number[] };
}

export interface WorstUnit {
	/** Index in the study: with the seed it gives the same unit again. */
	readonly unit: number;
	/** Its `unitError`, degrees; infinite where it lost lock. */
	readonly error: number;
	/** Why it does not pass the point; null where it does. */
	readonly shortcoming: Shortcoming | null;
}

export interface RateFigure {
	readonly count: number;
	readonly rate: number;
	readonly low: number;
	readonly high: number;
	/** Rate times sectors per hour at the point's speed. */
	readonly perHour: number;
	/**
	 * `sectors`: low and high bound the rate per sector (ratio estimator over units).
	 * `units`: no event was seen, and `high` bounds the share of units affected.
	 */
	readonly boundOn: 'sectors' | 'units';
}

/** A unit-level figure over units; a unit that lost lock ranks worse than any (infinite). */
export interface FigureSpread {
	readonly units: number;
	readonly lost: number;
	/** Over units; null where one lost lock. */
	readonly mean: number | null;
	readonly sd: number | null;
	/** At 0.05, 0.5 and 0.95, with order-statistic limits; null where too few units bound them. */
	readonly quantiles: readonly {
		readonly share: number;
		readonly value: number;
		readonly interval: readonly [number, number] | null;
	}[];
	/** What holds 95 % of units: with the same share beyond either end, and the shortest (JCGM 101:2008, 7.7). */
	readonly symmetric: readonly [number, number] | null;
	readonly shortest: readonly [number, number] | null;
}

export interface ComputedRate {
	/** Per sector. */
	readonly rate: number;
	readonly perHour: number;
	/** Of the rate per sector; null below an effective number of 100 units. */
	readonly interval: readonly [number, number] | null;
	/** (Σp)²/Σp² over units, and the largest unit's share of Σp. */
	readonly effective: number;
	readonly largestShare: number;
	/** Index of that unit; null where all chances are 0. */
	readonly largestUnit: number | null;
	/** How many times as many units counting would need for the same standard error; null without a spread. */
	readonly gain: number | null;
}

/** Units judged with both choices. */
export interface PassingPairs {
	readonly units: number;
	readonly both: number;
	readonly only: PerChoice<number>;
	readonly neither: number;
	/** Passing share of half-bus minus virtual neutral; null without units. */
	readonly difference: number | null;
	readonly interval: readonly [number, number] | null;
	/** McNemar's exact two-sided test. */
	readonly p: number;
	readonly better: ChoiceName | 'not shown';
}

/** Half-bus rate over virtual-neutral rate of early, late and missed crossings together. */
export interface PairedRates {
	/** 0 or infinite where one has no events; null where neither has. */
	readonly ratio: number | null;
	/** Bootstrap over units; null where either has no events, or a few units carry a computed rate. */
	readonly interval: readonly [number, number] | null;
	/** Which has no events. */
	readonly withoutEvents: ChoiceName | 'both' | null;
	/** Whether a few units (an effective number below 100) carry one of the rates. */
	readonly few: boolean;
}

/** Median over units of half-bus minus virtual neutral; of signed figures, of their sizes. Null where most lose lock with both. */
export interface PairedFigure {
	readonly medianDifference: number | null;
	readonly interval: readonly [number, number] | null;
	/** Exact two-sided sign test. */
	readonly p: number;
	readonly better: ChoiceName | 'not shown';
}

/** Units counted by their difference, degrees, in bins of `step` from `start`; apart those of which a choice lost lock. */
export interface PairDifferences {
	readonly start: number;
	readonly step: number;
	readonly counts: readonly number[];
	/** With half-bus alone, with virtual neutral alone, with both. */
	readonly lost: PerChoice<number> & { readonly both: number };
}

/** Both choices on the same units; differences are half-bus minus virtual neutral of the units' `unitError` figure. */
export interface PairedFigures {
	readonly units: number;
	/** Median difference in degrees; null with fewer than one pair, and where most lose lock with both. */
	readonly medianDifference: number | null;
	readonly interval: readonly [number, number] | null;
	/** Units in which each choice had the smaller figure, and ties. */
	readonly smaller: PerChoice<number>;
	readonly ties: number;
	/** Exact two-sided sign test. */
	readonly p: number;
	readonly better: ChoiceName | 'not shown';
	/** Absent in files before version 3. */
	readonly differences?: PairDifferences | undefined;
	readonly figures: Readonly<Record<UnitFigureName, PairedFigure>>;
	readonly passing: PassingPairs;
	/** Of events as counted, and as computed (null where they are not). */
	readonly rates: { readonly counted: PairedRates; readonly computed: PairedRates | null };
	/** The answer in one sentence, with figures and confidence. */
	readonly sentence: string;
}
