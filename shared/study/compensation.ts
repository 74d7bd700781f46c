import { choiceNames, type PerChoice } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** Carrier phases the nominal drive is run at, spread evenly over a turn. */
export const delayPhases = 16;

/** Sums over the measured sectors of one carrier phase; cell = (phase − from) · 2 + choice. */
export interface DelaySums {
	readonly from: number;
	/** Delays of detection, seconds. */
	readonly seconds: Float64Array<ArrayBuffer>;
	readonly crossings: Uint32Array<ArrayBuffer>;
}

export interface Compensation {
	/** Seconds. */
	readonly compensation: PerChoice<number>;
	readonly warnings: readonly string[];
}

/** The mean delay per choice, from sums that cover all sixteen phases, given in any order. */
export function compensationFrom(parts: readonly DelaySums[]): Compensation {
	const ordered = [...parts].sort((one, other) => one.from - other.from);
	const warnings: string[] = [];
	const mean = (c: number): number => {
		let seconds = 0;
		let crossings = 0;
		for (const part of ordered) {
			for (let cell = c; cell < part.seconds.length; cell += choiceNames.length) {
				seconds += part.seconds[cell] ?? 0;
				crossings += part.crossings[cell] ?? 0;
			}
		}
		if (crossings > 0) return seconds / crossings;
		warnings.push(
			`The nominal drive found no crossing with ${c === 0 ? 'half-bus' : 'virtual-neutral'} sensing at the reference point: its delay is taken as 0.`,
		);
		return 0;
	};
	return { compensation: { halfBus: mean(0), virtualNeutral: mean(1) }, warnings };
}

/** The compensation a scenario states as a time; null where it says `nominal`. */
export function statedCompensation(scenario: Scenario): Compensation | null {
	const stated = scenario.values['detection.compensation'];
	if (typeof stated !== 'number') return null;
	return { compensation: { halfBus: stated, virtualNeutral: stated }, warnings: [] };
}
