import type { Machine } from './machine.ts';
import type { Spread } from './spread.ts';

/** What `npm run bench` measures: medians with their extremes. A rate is in PWM periods per second, both choices and warm-up counted. */
export interface BenchResult {
	readonly machine: Machine;
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
	/** What a PWM period costs the engine: stretches in one conduction mode, and diode events to be located. */
	readonly segments: number;
	readonly events: number;
	/** Every demo, with two workers. */
	readonly scenarios: readonly { readonly name: string; readonly rate: Spread }[];
}

/** What the engine is to reach on a machine of two cores. */
export const targets = { twoWorkers: 4e6, overOdex: 100, odexDeviation: 0.005 } as const;
