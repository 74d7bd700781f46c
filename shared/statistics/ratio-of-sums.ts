import cbrt from '@stdlib/math-base-special-cbrt';
import ln from '@stdlib/math-base-special-ln';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { checkLevel, type Interval } from './interval.ts';

export interface RatioOfSums extends Interval {
	readonly ratio: number;
	/** Over units; 0 where every unit is alike but for rounding, and the limits are then the ratio itself. */
	readonly standardError: number;
}

/**
 * R = Σy/Σx over at least two units, with the standard error
 * √(Σ(y − Rx)²/[n (n − 1)])/x̄ (W. G. Cochran, Sampling Techniques, 3rd ed., ch. 6)
 * and limits R − s·T⁻¹(±t), t Student's quantile on n − 1 degrees of freedom,
 * T⁻¹(t) = ln[1 + ⅔g (t − g/6)]/⅔g and g = skewness of the residuals y − Rx over
 * √n: P. Hall, "On the removal of skewness by transformation", J. R. Stat. Soc. B
 * 54 (1992) 221–228. Where it is the shorter on the skew side, Hall's cubic
 * T⁻¹(t) = 3 [∛(1 + g (t − g/6)) − 1]/g serves instead.
 */
export function ratioOfSums(numerators: ArrayLike<number>, denominators: ArrayLike<number>, level = 0.95): RatioOfSums {
	checkLevel(level);
	const units = numerators.length;
	if (denominators.length !== units) throw new RangeError(`${units} numerators, ${denominators.length} denominators`);
	if (units < 2) throw new RangeError(`a ratio's spread over ${units} units`);
	let above = 0;
	let below = 0;
	for (let unit = 0; unit < units; unit++) {
		above += numerators[unit] as number;
		below += denominators[unit] as number;
	}
	const ratio = above / below;
	let squares = 0;
	let cubes = 0;
	for (let unit = 0; unit < units; unit++) {
		const residual = (numerators[unit] as number) - ratio * (denominators[unit] as number);
		squares += residual * residual;
		cubes += residual * residual * residual;
	}
	const standardError = (units / below) * Math.sqrt(squares / (units * (units - 1)));
	// every unit alike, but for rounding
	if (standardError <= 1e-12 * ratio) return { ratio, standardError: 0, low: ratio, high: ratio };
	const meanSquare = squares / units;
	const skewness = cubes / units / (meanSquare * Math.sqrt(meanSquare));
	const t = tQuantile((1 + level) / 2, units - 1);
	const g = skewness / Math.sqrt(units);
	return {
		ratio,
		standardError,
		low: ratio - standardError * untransform(t, g),
		high: ratio - standardError * untransform(-t, g),
	};
}

/** Inverse of Hall's transformation of a studentised mean, T(t) ≈ t + g t²/3 + g/6. */
function untransform(t: number, g: number): number {
	if (Math.abs(g) < 1e-6) return t - (g / 6) * (1 + 2 * t * t);
	const shifted = g * (t - g / 6);
	const cubic = (3 * (cbrt(1 + shifted) - 1)) / g;
	const inside = 1 + (2 / 3) * shifted;
	if (inside <= 0) return cubic;
	const exponential = ln(inside) / ((2 / 3) * g);
	// on the skew side the logarithm runs off to infinity where few units have events
	return t * g < 0 && Math.abs(cubic) < Math.abs(exponential) ? cubic : exponential;
}
