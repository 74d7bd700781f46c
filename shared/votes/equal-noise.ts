import exp from '@stdlib/math-base-special-exp';
import ln from '@stdlib/math-base-special-ln';

/** A noise (V) and the wrong crossings an hour that it makes. */
export interface NoiseStep {
	readonly sigma: number;
	readonly perHour: number;
}

/**
 * Noise at which a filter makes `perHour` wrong crossings, on a straight line between the steps around it in the
 * logarithms of both (rates change by decades between steps). Null where no two steps enclose it.
 *
 * @param steps noise falling
 */
export function equalNoise(steps: readonly NoiseStep[], perHour: number): number | null {
	for (let i = 1; i < steps.length; i += 1) {
		const [louder, quieter] = [steps[i - 1], steps[i]] as [NoiseStep, NoiseStep];
		if (!(louder.perHour >= perHour && quieter.perHour <= perHour && quieter.perHour > 0 && perHour > 0)) continue;
		if (louder.perHour === quieter.perHour) return louder.sigma;
		const share = ln(louder.perHour / perHour) / ln(louder.perHour / quieter.perHour);
		return louder.sigma * exp(share * ln(quieter.sigma / louder.sigma));
	}
	return null;
}
