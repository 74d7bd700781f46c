import exp from '@stdlib/math-base-special-exp';

/** e^(−k/8), so that what is left of x is below 1/8. */
const steps = 8;
const table = Float64Array.from({ length: 64 * steps }, (_, k) => exp(-k / steps));

/**
 * Makes `cells[at]`, x ≥ 0, e^−x to a few units of the last place: by a table
 * in steps of 1/8, and for the rest r by the (4, 4) Padé approximant, whose
 * relative error is r⁹·4!·4!/(8!·9!) < 3·10⁻¹⁶·10⁻¹. The same digits in every
 * engine. In an array, since a number passed to or from a call that the compiler
 * does not inline is put on the heap; one in an array is not.
 */
export function decayInPlace(cells: Float64Array, at: number): void {
	const x = cells[at] as number;
	if (!(x < 64)) {
		cells[at] = exp(-x);
		return;
	}
	const k = (x * steps) | 0;
	const r = x - k / steps;
	const z = r * r;
	const even = 1680 + z * (180 + z);
	const odd = r * (840 + 20 * z);
	cells[at] = ((table[k] as number) * (even - odd)) / (even + odd);
}
