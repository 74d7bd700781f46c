import betainc from '@stdlib/math-base-special-betainc';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { findRoot } from './find-root.ts';

/**
 * Quantile of the beta distribution: the x with I_x(a, b) = p, a and b at least 1.
 *
 * The library's quantile is only the starting guess: for shapes like (3, 10⁶),
 * which rare events need, it was seen a thousand times too high. Its incomplete
 * beta function is sound there, so the guess is bracketed and refined on that.
 */
export function inverseBeta(p: number, a: number, b: number): number {
	if (!(p >= 0 && p <= 1 && a >= 1 && b >= 1)) throw new RangeError(`beta quantile of p = ${p}, shapes ${a}, ${b}`);
	if (p === 0) return 0;
	if (p === 1) return 1;
	const miss = (x: number): number => betainc(x, a, b) - p;
	const guess = betaQuantile(p, a, b);
	const start = guess > 0 && guess < 1 ? guess : a / (a + b);
	let low = start * (1 - 1e-9);
	for (let factor = 1.1; low > 0 && miss(low) > 0; factor *= factor) low /= factor;
	let high = Math.min(start * (1 + 1e-9), 1);
	for (let factor = 1.1; high < 1 && miss(high) < 0; factor *= factor) high = Math.min(high * factor, 1);
	return findRoot(miss, low, high);
}
