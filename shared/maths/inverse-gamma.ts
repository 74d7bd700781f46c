import gammaincinv from '@stdlib/math-base-special-gammaincinv';
import { inverseNormal } from './inverse-normal.ts';

/** Shape from which on the series serves: there it is good to 1 part in 10⁹ for p from 0.0005 to 0.9995, and better beyond. */
const largeShape = 500;

/**
 * Quantile of the gamma distribution of shape a and scale 1: the x with P(a, x) = p.
 *
 * The library's own is sound up to shapes of some hundreds; from 999 on its
 * incomplete gamma function is off by up to 0.03 and its upper quantiles with it (by
 * 0.16 at p = 0.975). There the Cornish–Fisher series serves, z = Φ⁻¹(p):
 *
 *     a + z√a + (z² − 1)/3 + (z³ − 7z)/36√a − (3z⁴ + 7z² − 16)/810a + (9z⁵ + 256z³ − 433z)/38880a√a.
 *
 * Source: H. Goldberg, H. Levine, Annals of Mathematical Statistics 17 (1946)
 * 216–225 (of chi-squared; from memory, page not seen), checked against scipy.
 */
export function inverseGamma(p: number, a: number): number {
	if (!(p > 0 && p < 1 && a > 0)) throw new RangeError(`gamma quantile of p = ${p}, shape ${a}`);
	if (a < largeShape) return gammaincinv(p, a);
	const z = inverseNormal(p);
	const root = Math.sqrt(a);
	const [z2, z3] = [z * z, z * z * z];
	return (
		a +
		z * root +
		(z2 - 1) / 3 +
		(z3 - 7 * z) / (36 * root) -
		(3 * z2 * z2 + 7 * z2 - 16) / (810 * a) +
		(9 * z3 * z2 + 256 * z3 - 433 * z) / (38_880 * a * root)
	);
}
