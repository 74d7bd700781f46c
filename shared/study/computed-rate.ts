import { effectiveNumber, leastEffective } from '../statistics/effective-number.ts';
import { ratioOfSums } from '../statistics/ratio-of-sums.ts';
import type { ComputedRate } from './result.ts';

/**
 * Rate from the computed chances of every sector, which is there where counting
 * sees nothing: Σp/Σsectors over units. A few bad drives can carry nearly all of
 * it: below an effective number of 100 drives no interval is given, but how much
 * hangs on the worst.
 *
 * The gain is how many times as many drives counting would need for the same
 * standard error. A unit's count has the variance of its expectation P plus, its
 * sectors being nearly independent given the drive, about P itself: gain
 * = 1 + mean P/variance of (P − rate × sectors).
 *
 * @param chances sum of each unit's chances, none below 0; they are worked with in their place
 * @param sectors each unit's sectors
 */
export function computedRate(
	chances: Float64Array,
	sectors: Float64Array,
	{
		units,
		sectorsPerHour,
		level,
	}: { readonly units: ArrayLike<number>; readonly sectorsPerHour: number; readonly level: number },
): ComputedRate {
	const { effective, largestShare, largest } = effectiveNumber(chances);
	const total = sum(chances);
	const rate = total / sum(sectors);
	const base = {
		rate,
		perHour: rate * sectorsPerHour,
		effective,
		largestShare,
		largestUnit: largest < 0 ? null : (units[largest] as number),
	};
	if (largest < 0 || chances.length < 2) return { ...base, interval: null, gain: null };
	// chances of 1e-200 have no squares: worked in units of the largest
	const scale = chances[largest] as number;
	for (let unit = 0; unit < chances.length; unit += 1) chances[unit] = (chances[unit] as number) / scale;
	const { ratio, standardError, low, high } = ratioOfSums(chances, sectors, level);
	const deviation = standardError * (sum(sectors) / chances.length) * Math.sqrt(chances.length);
	const isBounded = effective >= leastEffective;
	return {
		...base,
		interval: isBounded ? [Math.max(0, low) * scale, Math.min(1, high * scale)] : null,
		gain: standardError > 0 ? 1 + (ratio * sum(sectors)) / chances.length / (deviation * deviation * scale) : null,
	};
}

function sum(values: Float64Array): number {
	let total = 0;
	for (const value of values) total += value;
	return total;
}
