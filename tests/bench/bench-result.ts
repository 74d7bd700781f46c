import type { Cost } from './cost-table.ts';
import type { Grown } from './growth-bench.ts';
import type { KernelCounts } from './kernel-counts.ts';
import type { PageBenchResult } from './page/page-result.ts';
import type { Spread } from './spread.ts';
import type { StartResult } from './start-bench.ts';
import type { Utilisation } from './utilisation.ts';

/** What was measured; null for a part that was not asked for. */
export interface BenchParts {
	readonly engine: BenchResult | null;
	readonly growth: readonly Grown[] | null;
	readonly start: StartResult | null;
	readonly page: PageBenchResult | null;
}

/** What `npm run bench` measures of the engine: medians with their extremes. A rate is in PWM periods per second, both choices and warm-up counted. */
export interface BenchResult {
	readonly repetitions: number;
	/** What the rates and the race are for. */
	readonly scenario: string;
	readonly oneWorker: Spread;
	readonly twoWorkers: Spread;
	/** From rates measured right after one another. */
	readonly twoOverOne: Spread;
	/** Seconds of processor time a PWM period in one thread, without noise, of the engine and of odex on the same drives. */
	readonly engineSeconds: Spread;
	readonly odexSeconds: Spread;
	readonly overOdex: Spread;
	readonly odexTolerance: number;
	/** Of odex's angle errors from the reference boards, degrees. */
	readonly odexDeviation: number;
	/** Measured sectors of the race, and those whose angle errors by engine and odex differ by more than the same 0.005°. */
	readonly sectors: number;
	readonly differing: number;
	/** Every demo, with two workers, the first demo first. */
	readonly scenarios: readonly {
		readonly name: string;
		readonly rate: Spread;
		/** From rates measured in the same round. */
		readonly overFirst: Spread;
		/** What a PWM period of it costs. */
		readonly counts: KernelCounts;
	}[];
	/** The first demo with one setting changed. */
	readonly costs: readonly Cost[];
	readonly utilisations: readonly Utilisation[];
}

/** What the engine is to reach on a machine of two cores. */
export const targets = {
	twoWorkers: 15e6,
	twoOverOne: 1.9,
	overOdex: 1000,
	slowest: 1 / 3,
	odexDeviation: 0.005,
} as const;
