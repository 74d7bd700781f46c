import { choiceNames, type PairRecord } from '../drive/drive.ts';

/** Sector kinds, n mod 6. */
export const sectorKinds = 6;

/** Figures of one run: a mean angle error for each choice and sector kind. */
export const figuresPerRun = choiceNames.length * sectorKinds;

/**
 * Adds to `sums` from `at` on a run's mean angle error of each choice and sector
 * kind, [choice][kind], in degrees: of its *interpolated* errors, which are free
 * of the waiting for readings and votes. NaN for a choice that lost lock or a
 * kind in which no crossing was found. A choice that was not simulated adds nothing.
 *
 * @param firstSector sectors before the first measured one
 */
export function addMeanErrors(sums: Float64Array, at: number, pair: Partial<PairRecord>, firstSector: number): void {
	for (const [c, choice] of choiceNames.entries()) {
		const run = pair[choice];
		if (run === undefined) continue;
		const { interpolated, lost } = run;
		if (!interpolated) throw new Error('a run without interpolated errors has no smooth figure');
		for (let kind = 0; kind < sectorKinds; kind += 1) {
			const first = (((kind - firstSector) % sectorKinds) + sectorKinds) % sectorKinds;
			let sum = 0;
			let found = 0;
			for (let j = first; j < interpolated.length; j += sectorKinds) {
				const error = interpolated[j] as number;
				if (Number.isNaN(error)) continue;
				sum += error;
				found += 1;
			}
			const cell = at + c * sectorKinds + kind;
			sums[cell] = (sums[cell] as number) + (lost || found === 0 ? Number.NaN : sum / found);
		}
	}
}
