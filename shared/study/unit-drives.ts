import { buildDrive, type Deviations } from '../drive/build-drive.ts';
import type { Drive } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { drawParts } from '../sampling/draw-parts.ts';
import { drawStart } from '../sampling/draw-start.ts';
import { keyedNoise } from '../sampling/keyed-noise.ts';
import type { StudyPlan } from './plan.ts';

/** One run to simulate: a unit as it stands at one start of one operating point. */
export interface UnitDrive {
	readonly point: number;
	readonly start: number;
	readonly drive: Drive;
	readonly noise: NoiseSource;
}

/** All runs of one unit, point by point and start by start: a function of the plan and the unit's index alone, unless its `parts` are given. */
export function* unitDrives(
	{ scenario, seed, compensation, draws, pointKeys }: StudyPlan,
	unit: number,
	parts: Deviations = drawParts(scenario, seed, unit, draws),
): Generator<UnitDrive> {
	const noise = keyedNoise(seed);
	const starts = scenario.values['trial.starts'] as number;
	for (let point = 0; point < scenario.points.length; point += 1) {
		const key = pointKeys?.[point] ?? point;
		for (let start = 0; start < starts; start += 1) {
			const { conditions, pwmPhase, ripplePhase } = drawStart(scenario, seed, unit, point, start, key);
			const drive = buildDrive(
				{ ...scenario.values, ...conditions },
				{ ...parts, pwmPhase, ripplePhase },
				compensation,
			);
			yield { point, start, drive, noise: noise.forRun(unit, key, start) };
		}
	}
}
