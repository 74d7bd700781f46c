import ln from '@stdlib/math-base-special-ln';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { type EffectiveNumber, effectiveNumber, leastEffective } from './effective-number.ts';
import { checkLevel, type Interval } from './interval.ts';

export interface UnevenMean extends EffectiveNumber {
	/** NaN without values. */
	readonly mean: number;
	/** NaN with fewer than two values. */
	readonly standardError: number;
	/** Null where the effective number is below `leastEffective`: the mean is then in the hands of a few values. */
	readonly interval: Interval | null;
}

/**
 * Mean of non-negative values of very different size (units' computed rates,
 * weighted outcomes of importance sampling), with an interval only where enough
 * of them carry it.
 *
 * The limits are x̄ − s·T⁻¹(±t), t Student's quantile on n − 1 degrees of
 * freedom, T⁻¹(t) = ln[1 + ⅔g (t − g/6)]/⅔g and g = skewness over √n: P. Hall,
 * "On the removal of skewness by transformation", J. R. Stat. Soc. B 54 (1992)
 * 221–228. The lower one is at least 0.
 *
 * Coverage of 95 % limits (tests/statistics/coverage.json): 94.3 % for 600
 * lognormal rates with σ = 1, 93.6 % for 2000 with σ = 1.5, and 92.3 % for 6000 with
 * σ = 2, nearly all misses below the truth: what the values have not shown
 * cannot be in it. Where the effective number comes near 100 the sets that get
 * an interval are those that missed their worst.
 */
export function unevenMean(values: ArrayLike<number>, level = 0.95): UnevenMean {
	checkLevel(level);
	const evenness = effectiveNumber(values);
	const count = values.length;
	// in units of the largest value, so that no square of a small rate vanishes
	const unit = evenness.largest < 0 ? 1 : (values[evenness.largest] as number);
	let sum = 0;
	for (let i = 0; i < count; i++) sum += (values[i] as number) / unit;
	const mean = sum / count;
	let squares = 0;
	let cubes = 0;
	for (let i = 0; i < count; i++) {
		const residual = (values[i] as number) / unit - mean;
		squares += residual * residual;
		cubes += residual * residual * residual;
	}
	const standardError = count < 2 ? Number.NaN : Math.sqrt(squares / (count * (count - 1)));
	const figures = { ...evenness, mean: mean * unit, standardError: standardError * unit };
	if (evenness.effective < leastEffective) return { ...figures, interval: null };
	if (standardError <= 1e-12 * mean) return { ...figures, interval: { low: figures.mean, high: figures.mean } };
	const variance = squares / count;
	const g = cubes / count / (variance * Math.sqrt(variance)) / Math.sqrt(count);
	const t = tQuantile((1 + level) / 2, count - 1);
	return {
		...figures,
		interval: {
			low: Math.max(0, figures.mean - figures.standardError * untransform(t, g)),
			high: figures.mean - figures.standardError * untransform(-t, g),
		},
	};
}

/** Inverse of Hall's T(t) = t + g t²/3 + g/6, its exponential form. */
function untransform(t: number, g: number): number {
	if (Math.abs(g) < 1e-6) return t - (g / 6) * (1 + 2 * t * t);
	return ln(Math.max(1e-9, 1 + (2 / 3) * g * (t - g / 6))) / ((2 / 3) * g);
}
