import type { Deviations } from '../drive/build-drive.ts';
import type { PerChoice } from '../drive/drive.ts';
import type { Values } from '../scenario/scenario.ts';
import type { Interval } from '../statistics/interval.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement, Shortcoming } from '../study/unit-passes.ts';
import type { FailingVerdict } from './failing-verdict.ts';
import type { SolderedPart } from './soldered-parts.ts';

/** What `weakest` prints and writes. Angles in electrical degrees. */
export interface WeakestResult {
	readonly format: 'anglespread-weakest';
	readonly formatVersion: 1;
	readonly provenance: Provenance;
	readonly requirement: Requirement;
	readonly choices: PerChoice<WeakestChoice>;
	/** Drives that the search judged, and those drawn for the shares; the mean of all weights would be 1 with very many. */
	readonly search: { readonly drives: number };
	readonly draws: {
		readonly drives: number;
		readonly centres: number;
		readonly ordinary: number;
		readonly meanWeight: number;
	};
	/** How far out the noise is taken as Gaussian when the hourly limit is just met, standard deviations of a sector's chance. */
	readonly gaussianTo: number;
}

export interface WeakestChoice {
	/** `found`; `nominal`: the middle of all tolerances fails already; `none`: nothing failed as far as was searched; `unknown`: interrupted first. */
	readonly outcome: 'found' | 'nominal' | 'none' | 'unknown';
	/** Failing points of the part space, nearest first: how far from the middle (standard deviations). */
	readonly distances: readonly number[];
	readonly drive: WeakestDrive | null;
	/** Share of drives that fail, from weighted draws. */
	readonly failingShare: WeightedFigure;
	/** Whether few enough drives fail for what the scenario requires. */
	readonly verdict: FailingVerdict;
	/** Early, late and missed crossings in an operating hour, averaged over drives. */
	readonly crossingsPerHour: WeightedFigure;
	/** Draws that lost lock before a sector was measured at every point: they add no crossings. */
	readonly unmeasured: number;
}

/** A failing drive of few parts, all others in the middle of their tolerances. */
export interface WeakestDrive {
	/** From the middle of all tolerances, standard deviations. */
	readonly distance: number;
	/** The operating point it fails at first, and why. */
	readonly point: string;
	readonly reason: Shortcoming | 'not simulated';
	/** The required quantile of its |angle error| at its worst point, and its computed crossings per hour: medians of its re-runs. */
	readonly angle: number;
	/** NaN where it lost lock in all of them before a sector was measured. */
	readonly perHour: number;
	/** Re-run with so many other sets of starts and noise, it failed in so many. */
	readonly confirmed: { readonly failed: number; readonly of: number };
	readonly parts: readonly SolderedPart[];
	/** The same as an entry of a file that `board` reads. */
	readonly board: { readonly case: string; readonly parameters: Values; readonly deviations: Deviations };
}

/** A weighted average; no interval where too few draws carry it. */
export interface WeightedFigure {
	readonly value: number;
	readonly standardError: number;
	readonly interval: Interval | null;
	/** (Σp)²/Σp² of the weighted draws, and what the largest holds of their sum. */
	readonly effective: number;
	readonly largestShare: number;
	/** Draws that are not zero. */
	readonly draws: number;
}
