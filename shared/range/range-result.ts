import type { PerChoice } from '../drive/drive.ts';
import type { Unit } from '../parameters/parameter.ts';
import type { Decision } from '../statistics/verdict.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';
import type { VariantFigures } from '../variants/variant-figures.ts';
import type { Axis } from './axis.ts';
import type { LoadLine, Setting } from './setting.ts';

/** What a range found; command line, page and report print from it. Angles in electrical degrees. */
export interface RangeResult {
	readonly format: 'anglespread-range';
	readonly formatVersion: 1;
	/** Units are those of all values together; compensation is the scenario's own. */
	readonly provenance: Provenance;
	readonly requirement: Requirement & { readonly sentence: string };
	readonly unitsPerValue: number;
	readonly axes: readonly RangeAxis[];
	/** The only point that was run; null for all of the scenario's. */
	readonly point: string | null;
	/** How the torque went with the speed; null where it was not the speed alone of the two that was varied. */
	readonly load: LoadLine | null;
	/** As asked for, the first axis running fastest, then those that the search for the slowest speed looked at. */
	readonly values: readonly RangeValue[];
	/** One for each value of the other axis; null where no speed was varied, or the work was cut short. */
	readonly slowest: readonly SlowestSpeed[] | null;
	readonly sentence: string;
}

export interface RangeAxis {
	readonly id: string;
	readonly name: string;
	readonly unit: Unit;
	readonly spacing: Axis['spacing'];
	readonly values: readonly number[];
}

/** An axis as results keep it: plain data, of the record no more than what it is called. */
export const rangeAxis = ({ record: { id, name, unit }, spacing, values }: Axis): RangeAxis => ({
	id,
	name,
	unit,
	spacing,
	values,
});

export interface RangeValue extends VariantFigures {
	readonly at: Setting;
	/** Looked at by the search for the slowest speed, not asked for. */
	readonly isSearched: boolean;
	/** Seconds: the scenario's own, or tuned anew where a varied parameter is not a condition. */
	readonly compensation: PerChoice<number>;
}

export interface SlowestSpeed {
	/** Value of the other axis; empty where there is none. */
	readonly at: Setting;
	/** Share of the speed that the search narrows the place down to. */
	readonly resolution: number;
	readonly choices: PerChoice<SlowestOfChoice>;
}

export interface SlowestOfChoice {
	/** Fastest speed looked at where the requirement holds, rpm; null where it holds nowhere. */
	readonly fastest: number | null;
	/** Slowest speed down to which, from there, it holds at every speed looked at. */
	readonly holds: number | null;
	/** The next slower speed looked at, and what is said there; null where none is slower. */
	readonly fails: number | null;
	readonly decision: Decision | null;
	/** Drives that pass at some speed looked at from `holds` to `fastest` and not at a faster one: the confidence covers the search as far as there are none. */
	readonly turnedRound: number;
}
