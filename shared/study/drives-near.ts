import { choiceNames } from '../drive/drive.ts';
import { unitValues } from './choice-figures.ts';
import { finishedUnits, type StudyColumns } from './merge.ts';

/** A unit, and which of its errors is meant; degrees. */
export interface DriveNear {
	readonly unit: number;
	readonly which: 'earliest' | 'mean' | 'latest';
	readonly error: number;
}

/**
 * The finished units of which the earliest, the mean or the latest commutation
 * at a point lies nearest to an angle, nearest first; equal ones by their index.
 * In the tails of all commutations together those are the drives that make
 * them, in the middle the drives that are typical of it.
 *
 * @param choice index into choiceNames
 */
export function drivesNear(
	study: StudyColumns,
	{ point, choice, angle, most }: { point: number; choice: number; angle: number; most: number },
): readonly DriveNear[] {
	if (choice < 0 || choice >= choiceNames.length) throw new RangeError(`choice ${choice}`);
	const finished = [...finishedUnits(study)];
	const place = { study, finished, point, choice };
	const [sectors, sums] = [unitValues(place, 'sectors'), unitValues(place, 'errorSum')];
	const errors = {
		earliest: unitValues(place, 'lowestError'),
		mean: sums.map((sum, i) => sum / (sectors[i] as number)),
		latest: unitValues(place, 'highestError'),
	};
	return finished
		.flatMap((unit, i): DriveNear[] => {
			const each = (['mean', 'earliest', 'latest'] as const).map((which) => ({
				unit,
				which,
				error: errors[which][i] as number,
			}));
			const [nearest] = each
				.filter(({ error }) => Number.isFinite(error))
				.sort((one, other) => Math.abs(one.error - angle) - Math.abs(other.error - angle));
			return nearest ? [nearest] : [];
		})
		.sort((one, other) => Math.abs(one.error - angle) - Math.abs(other.error - angle))
		.slice(0, most);
}
