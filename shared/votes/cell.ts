import type { PerChoice } from '../drive/drive.ts';

/** A majority filter and the noise it is given: one cell of the plane. */
export interface Filter {
	/** K of the last W readings must say "crossed". */
	readonly votes: number;
	readonly window: number;
}

export interface Cell extends Filter {
	/** Noise of a reading, V standard deviation. */
	readonly sigma: number;
	/** Delay that the firmware takes off with this filter, seconds. */
	readonly compensation: PerChoice<number>;
}

export const isSameFilter = (one: Filter, other: Filter): boolean =>
	one.votes === other.votes && one.window === other.window;

/** "3 of 5" */
export const filterWords = ({ votes, window }: Filter): string => `${votes} of ${window}`;
