/**
 * What one parameter record holds. Everything that needs to know a parameter
 * (scenario schema, command line help, form, sampler, report) loops over the
 * records of parameters.ts and reads it from here.
 */

/** SI symbols a value may carry; '1' is a plain number. Angles are electrical degrees, speed is rev/min as the trade writes it. */
export type Unit = 'V' | 'A' | 'Ω' | 'H' | 'F' | 's' | 'Hz' | '°' | 'rpm' | 'N·m' | 'V·s/rad' | '°C' | '1/K' | '1';

/**
 * How a value may vary (the three kinds are never mixed):
 * - `part`: fixed when a unit is built; has `lot` and `mismatch` tolerances.
 * - `condition`: what a unit must survive; may have a range, drawn anew at every start.
 * - `setting`: chosen by the engineer, the same in every unit.
 */
export type Role = 'part' | 'condition' | 'setting';

export type Group =
	| 'motor'
	| 'inverter'
	| 'operation'
	| 'supply'
	| 'divider'
	| 'halfBus'
	| 'virtualNeutral'
	| 'comparator'
	| 'detection'
	| 'noise'
	| 'trial'
	| 'requirement';

export type Distribution = 'uniform' | 'normal' | 'triangular' | 'gapped' | 'measured';

/** Where a tolerance comes from; `assumed` ones are singled out in every report. */
export type Basis = 'measured' | 'data sheet' | 'assumed';

export interface Tolerance {
	/** `relative`: fractions of the nominal. `absolute`: in the parameter's unit. */
	readonly scale: 'relative' | 'absolute';
	/** Half-width of the deviation common to all instances of one unit. */
	readonly lot: number;
	/** Half-width of the deviation drawn for each instance. */
	readonly mismatch: number;
	readonly distribution: Distribution;
	/** Half-width of the gap where the next tighter grade was picked out (`gapped` only). */
	readonly gap?: number;
	/** Measured deviations, in the tolerance's scale (`measured` only); they replace lot and mismatch. */
	readonly measured?: readonly number[];
	readonly basis: Basis;
}

export interface ConditionRange {
	readonly scale: 'relative' | 'absolute';
	/** Half-width around the stated value; the value is uniform in it, drawn at every start. */
	readonly halfWidth: number;
}

interface RecordBase {
	/** Dotted path, also the path in a scenario file: `motor.phaseResistance`. */
	readonly id: string;
	readonly group: Group;
	/** The engineer's words, lower case. */
	readonly name: string;
	readonly symbol: string;
	/** What it is and what it does, in one sentence. */
	readonly sentence: string;
}

export interface NumberRecord extends RecordBase {
	readonly kind: 'number' | 'integer';
	readonly unit: Unit;
	/** Nominal value of the first demo, SI (degrees and rev/min excepted). */
	readonly default: number | string;
	/** Inclusive limits, same unit. */
	readonly min: number;
	readonly max: number;
	/** A word that may stand in place of a number (`none`, `nominal`). */
	readonly word?: string;
	/** Allowed numbers where not every one in the range is. */
	readonly allowed?: readonly number[];
	readonly role: Role;
	/** How many physical instances a unit has; 3 are the phases a, b, c. */
	readonly instances: 1 | 3 | 12;
	/** Default tolerance of a part. */
	readonly tolerance?: Tolerance;
	/** Default range of a condition. */
	readonly range?: ConditionRange;
	/** May be stated per operating point (and, unless `stated`, in common). */
	readonly perPoint?: boolean;
	/** Every operating point must state it; it has no common value. */
	readonly stated?: boolean;
}

export interface ChoiceRecord extends RecordBase {
	readonly kind: 'choice';
	readonly options: readonly string[];
	readonly default: string;
	readonly role: 'setting';
}

export type ParameterRecord = NumberRecord | ChoiceRecord;

/** Whether a parameter says what drives are held to: it is no part of them. */
export const isRequirement = ({ id }: Pick<RecordBase, 'id'>): boolean => id.startsWith('requirement.');
