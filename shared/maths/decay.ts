import exp from '@stdlib/math-base-special-exp';

/** e^(−k/8), so that what is left of x is below 1/8. */
const steps = 8;
const table = Float64Array.from({ length: 64 * steps }, (_, k) => exp(-k / steps));

/**
 * e^−x for x ≥ 0, to a few units of the last place: a table in steps of 1/8,
 * and for the rest r the (4, 4) Padé approximant, whose relative error is
 * r⁹·4!·4!/(8!·9!) < 3·10⁻¹⁶·10⁻¹. The same digits in every engine.
 */
export function decay(x: number): number {
	if (!(x < 64)) return exp(-x);
	const k = (x * steps) | 0;
	const r = x - k / steps;
	const z = r * r;
	const even = 1680 + z * (180 + z);
	const odd = r * (840 + 20 * z);
	return ((table[k] as number) * (even - odd)) / (even + odd);
}
