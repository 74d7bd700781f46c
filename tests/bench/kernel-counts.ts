import { choiceNames } from '../../shared/drive/drive.ts';
import type { NoiseSource } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { runPeriods } from './count-periods.ts';

/** What a PWM period costs the engine; both choices and the warm-up, which they share, counted. */
export interface KernelCounts {
	/** Stretches in one conduction mode. */
	readonly segments: number;
	/** Diode events to be located. */
	readonly events: number;
	/** Readings that the firmware takes. */
	readonly readings: number;
	/** Evaluations of e^−x. */
	readonly exponentials: number;
	/** Noise deviates and ring phases drawn. */
	readonly draws: number;
}

declare global {
	/** Counted by the build that src/tooling/count-kernel-plugin.mjs makes, in which alone this file can be used. */
	var kernelWork: { exponentials: number; readings: number };
}

// functions count from when the modules are loaded
globalThis.kernelWork ??= { exponentials: 0, readings: 0 };

/** Counts over units 0 up to `units`, every start at every point, as a study runs them. */
export function kernelCounts(plan: StudyPlan, units = 1): KernelCounts {
	let periods = 0;
	let segments = 0;
	let events = 0;
	let draws = 0;
	const before = { ...globalThis.kernelWork };
	const drives = Array.from({ length: units }, (_, unit) => [...unitDrives(plan, unit)]).flat();
	for (const { drive, noise } of drives) {
		const counting: NoiseSource = {
			normal(sector, reading) {
				draws += 1;
				return noise.normal(sector, reading);
			},
			ringSpread(period, edge) {
				draws += 1;
				return noise.ringSpread(period, edge);
			},
		};
		const pair = simulatePair(drive, counting, { chances: true });
		for (const choice of choiceNames) periods += runPeriods(drive, pair[choice]);
	}
	const { exponentials, readings } = globalThis.kernelWork;
	// the careful way, which alone tells of every segment
	for (const { drive, noise } of drives) {
		simulatePair(drive, noise, {
			observe(stage) {
				if (stage.length > 0) segments += 1;
				if (stage.boundary === 'event') events += 1;
			},
		});
	}
	return {
		segments: segments / periods,
		events: events / periods,
		readings: (readings - before.readings) / periods,
		exponentials: (exponentials - before.exponentials) / periods,
		draws: draws / periods,
	};
}
