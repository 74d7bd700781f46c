/** Middle and extremes of repeated measurements. */
export interface Spread {
	readonly median: number;
	readonly least: number;
	readonly most: number;
}

export function spread(values: readonly number[]): Spread {
	const sorted = [...values].sort((a, b) => a - b);
	const middle = (sorted.length - 1) / 2;
	const at = (i: number): number => sorted[i] ?? Number.NaN;
	return {
		median: (at(Math.floor(middle)) + at(Math.ceil(middle))) / 2,
		least: at(0),
		most: at(sorted.length - 1),
	};
}
