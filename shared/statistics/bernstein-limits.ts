import ln from '@stdlib/math-base-special-ln';
import { checkLevel, type Interval } from './interval.ts';

/**
 * One-sided limits of the mean of values between 0 and `most`, each with the
 * confidence C whatever their distribution: x̄ ± [√(2 s² ln(2/δ)/n) + 7 M ln(2/δ)/(3 (n − 1))],
 * δ = 1 − C, s² the sample variance. Wide, but true also where a few values
 * carry the mean, of which other intervals make nothing.
 *
 * Source: A. Maurer, M. Pontil, "Empirical Bernstein bounds and sample variance
 * penalization", 22nd Conference on Learning Theory (2009), theorem 4.
 */
export function bernsteinLimits(values: ArrayLike<number>, most: number, confidence = 0.95): Interval {
	checkLevel(confidence);
	const count = values.length;
	if (count < 2) return { low: 0, high: most };
	let sum = 0;
	for (let i = 0; i < count; i++) sum += values[i] as number;
	const mean = sum / count;
	let squares = 0;
	for (let i = 0; i < count; i++) {
		const value = values[i] as number;
		if (!(value >= 0 && value <= most * (1 + 1e-9)))
			throw new RangeError(`value ${i}: ${value} is not from 0 to ${most}`);
		squares += (value - mean) * (value - mean);
	}
	const log = ln(2 / (1 - confidence));
	const reach = Math.sqrt((2 * (squares / (count - 1)) * log) / count) + (7 * most * log) / (3 * (count - 1));
	return { low: Math.max(0, mean - reach), high: Math.min(most, mean + reach) };
}
