import type { ConditionRange, Tolerance } from '../parameters/parameter.ts';

/** Nominal value of every parameter by id: SI numbers (degrees and rev/min excepted), choices and words as strings. */
export type Values = Readonly<Record<string, number | string>>;

/** One operating point: a condition that every unit must survive. */
export interface OperatingPoint {
	readonly name: string;
	/** Every condition parameter by id (`operation.speed`, `supply.voltage`, …), the common value where the point states none. */
	readonly values: Readonly<Record<string, number>>;
	/** Ranges by id; a condition without one is exact. */
	readonly ranges: Readonly<Record<string, ConditionRange>>;
}

/** A valid scenario with every unit converted and every default filled in. */
export interface Scenario {
	readonly name: string;
	/** True where drive and figures were made up to teach something. */
	readonly invented?: boolean;
	/** What is to be learnt from it. */
	readonly lesson: string;
	/** Every parameter's nominal value; the conditions' are those of the reference point. */
	readonly values: Values;
	/** Tolerance of every part, by id. */
	readonly tolerances: Readonly<Record<string, Tolerance>>;
	/** At least one. */
	readonly points: readonly OperatingPoint[];
	/** Index of the point at which `nominal` compensation is found. */
	readonly referencePoint: number;
}

/** One thing wrong with an input; lists of these are shown whole. */
export interface Problem {
	/** Where, as a dotted path: `points[1].speed`. */
	readonly path: string;
	/** What was found there, as written (shortened when long). */
	readonly value: string;
	/** What is wrong and what would be right, in words, with range and unit where there is one. */
	readonly message: string;
}

/** Takes note of one thing wrong: where, what was written there, and what would be right. */
export type Report = (path: string, written: unknown, message: string) => void;
