import { buildDrive } from '../drive/build-drive.ts';
import { choiceNames } from '../drive/drive.ts';
import { silence } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import type { Scenario } from '../scenario/scenario.ts';
import {
	type Compensation,
	compensationFrom,
	type DelaySums,
	delayPhases,
	statedCompensation,
} from './compensation.ts';

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

/** The compensation of a scenario, found here and now (workers share the phases out instead). */
export function nominalCompensation(scenario: Scenario): Compensation {
	return statedCompensation(scenario) ?? compensationFrom([nominalDelays(scenario)]);
}
