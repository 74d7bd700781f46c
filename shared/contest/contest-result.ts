import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import type { RangeAxis } from '../range/range-result.ts';
import type { Setting } from '../range/setting.ts';
import type { Decision } from '../statistics/verdict.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';

/** Which choice is better at each speed and torque; page and report print from it. Angles in electrical degrees. */
export interface ContestResult {
	readonly format: 'anglespread-contest';
	readonly formatVersion: 1;
	/** Units are those of all cells together. */
	readonly provenance: Provenance;
	readonly requirement: Requirement & { readonly sentence: string };
	/** The operating point that lends all other conditions. */
	readonly point: string;
	readonly speed: RangeAxis;
	readonly torque: RangeAxis;
	/** A cell takes units until it is decided, or has this many. */
	readonly unitsAtMost: number;
	/** The slowest speed first, then the next torque. */
	readonly cells: readonly ContestCell[];
	readonly sentence: string;
}

export interface ContestCell {
	readonly at: Setting;
	/** Why it cannot be simulated, in words; null where it can. */
	readonly leftOut: string | null;
	/** Null where it is left out, or no unit is finished yet. */
	readonly figures: CellFigures | null;
}

export interface CellFigures {
	readonly units: { readonly finished: number; readonly failed: number };
	/** Units in which each choice had the smaller error, and ties. */
	readonly smaller: PerChoice<number>;
	readonly ties: number;
	/** Of the units that differ, the share with the smaller error with half-bus: limits that hold for the whole map, however often it is looked at. */
	readonly share: { readonly low: number; readonly high: number };
	/** Which has the smaller error in more than half of the units that differ. */
	readonly better: ChoiceName | 'not shown';
	/** Median of half-bus minus virtual neutral; ±∞ where most of one side lost lock. */
	readonly medianDifference: number;
	readonly choices: PerChoice<CellChoice>;
}

export interface CellChoice {
	/** Median over units of the angle that 95 % of a unit's commutations keep within; infinite where most lost lock. */
	readonly medianError: number;
	/** Units that meet the requirement at this cell. */
	readonly passed: number;
	/** What they show of it, by limits that hold at every look. */
	readonly decision: Decision;
}
