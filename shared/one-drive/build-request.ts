import { buildDrive } from '../drive/build-drive.ts';
import type { Drive } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { drawParts } from '../sampling/draw-parts.ts';
import { drawStart } from '../sampling/draw-start.ts';
import { keyedNoise } from '../sampling/keyed-noise.ts';
import type { BoardValues, DriveRequest } from './drive-request.ts';
import { type Removal, without } from './without.ts';

/** The drive that a request asks for and the noise it meets, with one disturbance taken out where so asked. */
export function buildRequest(
	request: DriveRequest,
	removal: Removal | null = null,
): { readonly drive: Drive; readonly noise: NoiseSource } {
	const drawn = request.board ?? drawBoard(request);
	const { values, deviations } = removal ? without(removal, drawn) : drawn;
	const { seed, pointKeys } = request.plan;
	const key = pointKeys?.[request.point] ?? request.point;
	return {
		drive: buildDrive(values, deviations, drawn.compensation),
		noise: keyedNoise(seed).forRun(request.unit, key, request.start),
	};
}

/** What the study draws for a drive, as values and deviations: the same that shared/study/unit-drives.ts builds. */
export function drawBoard({ plan, unit, point, start }: DriveRequest): BoardValues {
	const { scenario, seed, compensation, pointKeys } = plan;
	const key = pointKeys?.[point] ?? point;
	const { conditions, pwmPhase, ripplePhase } = drawStart(scenario, seed, unit, point, start, key);
	return {
		values: { ...scenario.values, ...conditions },
		deviations: { ...drawParts(scenario, seed, unit), pwmPhase, ripplePhase },
		compensation,
	};
}
