import type { PerChoice } from '../drive/drive.ts';
import type { Provenance } from '../study/result.ts';

/**
 * Three budgets of the same smooth figure, the mean angle error of each sector
 * kind: the record that command line and page print from. Electrical degrees;
 * changes against the drive with everything in the middle of its limits.
 */
export interface BudgetsResult {
	readonly format: 'anglespread-budgets';
	readonly formatVersion: 1;
	/** Its units are all drives simulated: at limits one by one, at all worse limits, and drawn. */
	readonly provenance: Provenance;
	readonly point: string;
	/** The point's nominal conditions by parameter id. */
	readonly conditions: Readonly<Record<string, number>>;
	/** Carrier and ripple phases that each drive's figures are a mean over. */
	readonly phases: number;
	/** Parts and conditions with limits. */
	readonly sources: readonly { readonly id: string; readonly name: string }[];
	readonly choices: PerChoice<ChoiceBudgets>;
	/** The answer, and why the budgets differ. */
	readonly sentence: string;
	readonly why: string;
}

export interface ChoiceBudgets {
	/** Drawn drives with a figure in every sector kind, and without. */
	readonly drawn: number;
	readonly drawnWithout: number;
	/** Sector kinds 0…5; null where the budgets cannot be made: see `without`. */
	readonly kinds: readonly (KindBudgets | null)[];
	/** Names of sources at whose limit, alone, there is no figure (lock lost, no crossing, simulation failed); `the nominal drive` where that fails already. */
	readonly without: readonly string[];
	/** Sector kind whose extreme drives, run, move furthest either way. */
	readonly worstKind: number | null;
}

export interface KindBudgets {
	/** Mean error with everything in the middle. */
	readonly middle: number;
	readonly extremeValue: {
		/** ± by linear sum of the signed sensitivities. */
		readonly linear: number;
		/** Confirmed by running the two drives with every source at its worse limit; null where one lost lock or found no crossing. */
		readonly low: number | null;
		readonly high: number | null;
	};
	/** ± */
	readonly rootSumSquare: number;
	/** Standard deviation by linear propagation of the distributions' own. */
	readonly propagated: number;
	/** Over the drawn drives; null with fewer than two. */
	readonly monteCarlo: {
		readonly mean: number;
		readonly sd: number;
		/** 95 % coverage interval, probabilistically symmetric; null with too few drives. */
		readonly interval: readonly [number, number] | null;
		readonly min: number;
		readonly max: number;
		/** Share of drives within the root-sum-square. */
		readonly withinRootSumSquare: number;
	} | null;
	/** Change with each source alone at its lower and upper limit, in the order of `sources`. */
	readonly effects: readonly (readonly [number, number])[];
}
