/** How many of as many equal strata of [0, 1) as there are values hold one. */
export const strataHit = (values: readonly number[]): number =>
	new Set(values.map((value) => Math.floor(value * values.length))).size;
