import type { PerChoice } from '../drive/drive.ts';

/**
 * The one record that command line, page and report print from. Angles in
 * electrical degrees, torque in N·m, rates per measured sector.
 */
export interface StudyResult {
	readonly format: 'anglespread-study';
	readonly formatVersion: 1;
	readonly provenance: Provenance;
	readonly points: readonly PointResult[];
}

export interface Provenance {
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
	readonly warnings: readonly string[];
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
	/** Per-unit figure: 95 % quantile of |angle error| over all its starts' sectors (a lost run ranks worse than any: infinite here, null in JSON). */
	readonly unitError: {
		readonly median: number;
		readonly q95: number;
		/** Order-statistic limits of the two, [low, high]; null where too few units bound it. */
		readonly medianInterval: readonly [number, number] | null;
		readonly q95Interval: readonly [number, number] | null;
	};
	readonly rates: Readonly<Record<'early' | 'late' | 'missed', RateFigure>>;
	/** Causes of the early false crossings, counted. */
	readonly causes: Readonly<Record<'freewheel' | 'noise' | 'threshold', number>>;
	/** Runs (unit × start) that lost lock. */
	readonly lost: number;
	readonly runs: number;
	readonly meanTorque: number;
	/** Runs that ended at full duty, more than 2 % short of the torque. */
	readonly torqueNotReached: number;
	/** Mean angle error of each sector kind 0…5 (open phase c↓ b↑ a↓ c↑ b↓ a↑). */
	readonly sectorMeans: readonly number[];
	/** Counts of angle errors in bins of `step` degrees from `start`; the first and last bin take what lies beyond. */
	readonly histogram: { readonly start: number; readonly step: number; readonly counts: readonly number[] };
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

/** Both choices on the same units; differences are half-bus minus virtual neutral of the units' `unitError` figure. */
export interface PairedFigures {
	readonly units: number;
	/** Median difference in degrees; null with fewer than one pair. */
	readonly medianDifference: number | null;
	readonly interval: readonly [number, number] | null;
	/** Units in which each choice had the smaller figure, and ties. */
	readonly smaller: PerChoice<number>;
	readonly ties: number;
	/** Exact two-sided sign test. */
	readonly p: number;
	readonly better: 'halfBus' | 'virtualNeutral' | 'not shown';
	/** The answer in one sentence, with figures and confidence. */
	readonly sentence: string;
}
