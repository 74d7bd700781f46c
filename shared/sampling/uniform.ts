/** Deviation uniform in ±halfWidth, by inverse distribution of a uniform in [0, 1). */
export function uniform(halfWidth: number, u: number): number {
	return halfWidth * (2 * u - 1);
}
