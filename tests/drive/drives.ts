import { buildDrive, type Deviations } from '../../shared/drive/build-drive.ts';
import type { ChoiceName, Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import type { PowerStage } from '../../shared/drive/power-stage/power-stage.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import type { Values } from '../../shared/scenario/scenario.ts';

/** The first demo's nominal drive with some parameters changed, compensation as a time (0 unless given), no noise. */
export function driveWith(parameters: Values = {}, deviations: Deviations = {}): Drive {
	const compensation =
		typeof parameters['detection.compensation'] === 'number' ? parameters['detection.compensation'] : 0;
	return buildDrive({ ...defaultValues(), 'noise.sigma': 0, 'detection.compensation': 0, ...parameters }, deviations, {
		halfBus: compensation,
		virtualNeutral: compensation,
	});
}

/** Runs a drive and shows every segment just before it is taken. */
export function observeRun(drive: Drive, observe: (stage: PowerStage, choice: ChoiceName | 'warmup') => void): void {
	simulatePair(drive, silence, { observe });
}

export const mean = (values: ArrayLike<number>): number =>
	Array.from(values).reduce((a, b) => a + b, 0) / values.length;

/** Largest difference; both must be numbers, or both not (a missed crossing). */
export function farthest(one: ArrayLike<number>, other: ArrayLike<number>): number {
	if (one.length !== other.length) return Infinity;
	const differences = Array.from(one, (value, i) =>
		Number.isNaN(value) && Number.isNaN(other[i]) ? 0 : Math.abs(value - (other[i] ?? NaN)),
	);
	return Math.max(0, ...differences);
}
