import type { PerChoice } from '../drive/drive.ts';
import type { Verdict } from '../statistics/verdict.ts';
import type { Doubts } from '../study/doubts.ts';
import type { ChoiceFigures, RateFigure } from '../study/result.ts';
import type { Requirement, Shortcoming } from '../study/unit-passes.ts';
import type { EventKind } from '../words/names.ts';
import type { GradeEffect, NominalShift } from './apply-grade.ts';
import type { Grade } from './grade.ts';
import type { AskedGroup } from './resistor-groups.ts';

/** The record that command line, page and report print the comparison of grades from. Angles in electrical degrees. */
export interface GradesResult {
	readonly format: 'anglespread-grades';
	readonly formatVersion: 2;
	readonly provenance: GradesProvenance;
	readonly group: AskedGroup;
	/** The board with exact resistors in the group, as designed: what no grade can better. */
	readonly exact: CaseFigures;
	/** Tightest first: the order they were judged in. */
	readonly grades: readonly GradeResult[];
	/** Of loose resistors; of arrays where no others were asked about. */
	readonly enough: PerChoice<Enough>;
	/** Of arrays where loose resistors were asked about too, else null. */
	readonly enoughOfArrays: PerChoice<Enough> | null;
	/** The cheapest mix over the groups; null where prices or `all` were not asked for. */
	readonly cheapest: PerChoice<CheapestMix> | null;
}

export interface GradesProvenance extends Doubts {
	readonly version: string;
	readonly seed: string;
	readonly scenario: string;
	/** SHA-256 (hex) of the resolved scenario in canonical JSON. */
	readonly scenarioDigest: string;
	/** SHA-256 (hex) over the digests of all runs with the first seed, in their order. */
	readonly resultDigest: string;
	/** Of a run that did not end early. */
	readonly unitsPerRun: number;
	/** Runs with the first seed, and their units together. */
	readonly runs: number;
	readonly units: CaseFigures['units'];
	readonly requirement: Requirement;
	/** True where it was interrupted: nothing is judged then, or what holds is not confirmed. */
	readonly partial: boolean;
	readonly level: number;
	readonly methods: Readonly<Record<string, string>>;
}

export interface GradeResult {
	readonly grade: Grade;
	/** What the group's resistors on a board with each choice cost; null without prices. */
	readonly price: PerChoice<number> | null;
	readonly nominals: readonly NominalShift[];
	/** The grade, and its nominal values and its tolerance each alone. */
	readonly cases: Readonly<Record<Exclude<GradeEffect, 'neither'>, CaseFigures>>;
	/** What the sequence of tests says of the grade; null where it was not judged. */
	readonly judged: PerChoice<Verdict | null>;
}

/** One run's figures. */
export interface CaseFigures {
	/** SHA-256 (hex) of its per-unit columns, as `study` gives it. */
	readonly resultDigest: string;
	readonly units: { readonly asked: number; readonly finished: number; readonly failed: number };
	/** Delay compensation, seconds: the mean delay of this case's own nominal drive, or as stated. */
	readonly compensation: PerChoice<number>;
	readonly choices: PerChoice<CaseChoice>;
}

export interface CaseChoice {
	/** Units that pass every operating point. */
	readonly passed: number;
	/** Units that do not, by the first reason at the first point they fall short at. */
	readonly shortcomings: Readonly<Record<Shortcoming, number>>;
	/** Passing share, units that could not be simulated in the denominator, with exact one-sided limits. NaN without units. */
	readonly share: number;
	readonly low: number;
	readonly high: number;
	/** A unit's 95 % quantile of |angle error| at the point where it is largest. */
	readonly unitError: ChoiceFigures['unitError'];
	/** Expected early, late and missed crossings in an operating hour, mean over units and over the points by their share of the hours. */
	readonly crossingsPerHour: number;
	readonly points: readonly CasePoint[];
}

export interface CasePoint {
	readonly name: string;
	readonly unitError: ChoiceFigures['unitError'];
	readonly crossingsPerHour: number;
	/** As counted. */
	readonly rates: Readonly<Record<EventKind, RateFigure>>;
	readonly lost: number;
	readonly torqueNotReached: number;
	readonly runs: number;
}

/** A test on drives drawn with a seed of its own. */
export interface FreshTest<Subject> {
	readonly subject: Subject;
	readonly seed: string;
	readonly confidence: number;
	readonly verdict: Verdict;
}

/** The loosest grade that is enough for one choice. Grades by their names. */
export interface Enough {
	/** By the sequence of tests; null where even the tightest does not hold. */
	readonly loosest: string | null;
	/** With fresh seeds, from that grade towards the tighter ones, until one holds again. */
	readonly fresh: readonly FreshTest<string>[];
	/** The grade that held twice; null where none did. */
	readonly confirmed: string | null;
	readonly sentence: string;
}

export interface MixFigures {
	/** Grade names by group of resistors. */
	readonly grades: Readonly<Record<string, string>>;
	readonly price: number;
	readonly verdict: Verdict;
}

export interface CheapestMix {
	/** All of them, cheapest first, as the search saw them. */
	readonly searched: readonly MixFigures[];
	/** With fresh seeds, from the cheapest that held in the search towards the dearer ones. */
	readonly fresh: readonly FreshTest<Pick<MixFigures, 'grades' | 'price'>>[];
	readonly confirmed: Pick<MixFigures, 'grades' | 'price'> | null;
	readonly sentence: string;
}
