import { inverseNormal } from '../maths/inverse-normal.ts';

/** How many standard deviations make the tolerance. */
export const sigmasInTolerance = 3;

/** Φ(−3), the share of a normal distribution below its lower tolerance. */
export const tailAtTolerance = 1.3498980316300946e-3;

/**
 * Deviation of a normal distribution with tolerance = 3 σ, cut off at the
 * tolerance (what lies beyond was sorted out), by inverse distribution:
 * z = Φ⁻¹(Φ(−3) + u [Φ(3) − Φ(−3)]).
 */
export function normal(halfWidth: number, u: number): number {
	const z = inverseNormal(tailAtTolerance + u * (1 - 2 * tailAtTolerance));
	return (halfWidth / sigmasInTolerance) * Math.min(Math.max(z, -sigmasInTolerance), sigmasInTolerance);
}
