import { buildDrive } from '../drive/build-drive.ts';
import { choiceNames, type PerChoice } from '../drive/drive.ts';
import { silence } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
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

/**
 * How late the nominal drive (no deviations, no noise, no ringing, nothing
 * compensated) acts on its crossings at the scenario's reference point, carrier
 * phases `from` up to `to` of the sixteen. Missed crossings and runs that lost
 * lock say nothing about the delay and are left out.
 */
export function nominalDelays(
	scenario: Scenario,
	from = 0,
	to = delayPhases,
	onProgress: (done: number) => void = () => {},
): DelaySums {
	const seconds = new Float64Array((to - from) * choiceNames.length);
	const crossings = new Uint32Array(seconds.length);
	const values = {
		...scenario.values,
		...scenario.points[scenario.referencePoint]?.values,
		'noise.sigma': 0,
		'noise.ringAmplitude': 0,
	};
	for (let phase = from; phase < to; phase += 1) {
		const drive = buildDrive(
			values,
			{
				pwmPhase: (phase + 0.5) / delayPhases,
				// 7 has no factor in common with 16: every ripple phase once, unrelated to the carrier's
				ripplePhase: (((7 * phase) % delayPhases) + 0.5) / delayPhases,
			},
			{ halfBus: 0, virtualNeutral: 0 },
		);
		const pair = simulatePair(drive, silence);
		const degreesPerSecond = 6 * drive.motor.polePairs * drive.operation.speed;
		choiceNames.forEach((choice, c) => {
			const run = pair[choice];
			if (run.lost) return;
			const cell = (phase - from) * choiceNames.length + c;
			for (const error of run.crossings) {
				if (Number.isNaN(error)) continue;
				// with nothing compensated, the crossing error is the delay of detection as an angle
				seconds[cell] = (seconds[cell] ?? 0) + error / degreesPerSecond;
				crossings[cell] = (crossings[cell] ?? 0) + 1;
			}
		});
		onProgress(phase + 1 - from);
	}
	return { from, seconds, crossings };
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

/** The compensation of a scenario, found here and now (workers share the phases out instead). */
export function nominalCompensation(scenario: Scenario): Compensation {
	return statedCompensation(scenario) ?? compensationFrom([nominalDelays(scenario)]);
}
