import type { PerChoice } from '../drive/drive.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';
import type { VariantChoice } from '../variants/variant-figures.ts';
import type { Filter } from './cell.ts';

/** The plane of majority filters and noise; command line prints from it. Angles in electrical degrees, noise in V. */
export interface VotesResult {
	readonly format: 'anglespread-votes';
	/** Since 2 `passing` counts the angle limit as each filter and noise keep it, not as the drives ran. */
	readonly formatVersion: 2;
	/** Units are those of all runs together. */
	readonly provenance: Provenance;
	readonly requirement: Requirement & { readonly sentence: string };
	/** Of each run. */
	readonly unitsPerRun: number;
	/** Drives that the plane is of: those of its run that were simulated. */
	readonly judged: number;
	/** Seed of the drives that confirm the finalists: the plane was not worked out on any of them. */
	readonly confirmationSeed: string;
	/** The scenario's filter and noise, whose waveform every cell is judged on. */
	readonly own: Filter & { readonly sigma: number };
	readonly filters: readonly Filter[];
	/** Rising. */
	readonly sigmas: readonly number[];
	readonly choices: PerChoice<ChoiceVotes>;
	/** The same cells with every sensing resistor one tolerance grade tighter, judged on readings of their own; null where no grade is tighter, or the work was cut short. */
	readonly tighter: {
		readonly words: string;
		/** Drives judged. */
		readonly judged: number;
		readonly cells: PerChoice<readonly CellFigures[]>;
	} | null;
	readonly sentence: string;
}

export interface ChoiceVotes {
	/** Filter by filter, each at all noise values. */
	readonly cells: readonly CellFigures[];
	/** At the scenario's noise, its own filter first; empty where no drive was finished. */
	readonly finalists: readonly Finalist[];
	/** What the best filter is held against: the scenario's, or single readings where that is the best; null without drives or another filter. */
	readonly base: Filter | null;
	/** Noise with which the base has as few wrong crossings as the best filter has at the scenario's noise, V; null where no step of noise tried is so quiet. */
	readonly equalNoise: number | null;
}

export interface CellFigures extends Filter {
	readonly sigma: number;
	/** Seconds: what the firmware takes off with this filter. */
	readonly compensation: number;
	/** Expected in an operating hour, points by their share of the hours. */
	readonly crossingsPerHour: {
		readonly early: number;
		readonly late: number;
		readonly missed: number;
		readonly all: number;
	};
	/** Drives that keep the hourly limit at every point; those that keep the angle limit; and those that keep both and, as they ran with the scenario's filter, lock and torque. */
	readonly withinRate: number;
	readonly withinAngle: number;
	readonly passing: number;
	/** How long after the EMF's crossing it is accepted, at each point: mean over all sectors, degrees. */
	readonly acceptsAfter: readonly number[];
}

export type FinalistReason = 'as stated' | 'most drives pass' | 'least delay that holds';

export interface Finalist extends Filter {
	readonly reasons: readonly FinalistReason[];
	/** Of the plane, an hour. */
	readonly predicted: number;
	/** Simulated in full on fresh drives; null where the work was cut short. */
	readonly confirmed: VariantChoice | null;
}
