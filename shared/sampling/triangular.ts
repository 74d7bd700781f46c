/**
 * Deviation of the symmetric triangular distribution on ±halfWidth (mode 0), by
 * inverse distribution: F(x) = (1 + x/h)²/2 below 0, 1 − (1 − x/h)²/2 above.
 */
export function triangular(halfWidth: number, u: number): number {
	return u < 0.5 ? halfWidth * (Math.sqrt(2 * u) - 1) : halfWidth * (1 - Math.sqrt(2 * (1 - u)));
}
