import type { StudyColumns } from '../../shared/study/merge.ts';

/**
 * Ends some of many runs at fixed numbers of units. What decides is a function of the units
 * in index order alone, so that a run ends at the same one for any number of workers.
 */
export interface EarlyEnds {
	/** After so many units of each run that goes on, rising; those below the number asked for count. */
	readonly looks: readonly number[];
	/** The places of runs that are to end now, of those that go on: each by its place, all its units so far done. */
	readonly ended: (goingOn: ReadonlyMap<number, StudyColumns>) => Iterable<number>;
}

/** Where stages of work end: at each look that comes before the whole, and with the whole. */
export const stageEnds = (whole: number, looks: readonly number[] = []): number[] => [
	...looks.filter((look) => look < whole),
	whole,
];
