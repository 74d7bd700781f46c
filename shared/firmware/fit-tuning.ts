/** What firmware can change at once for all speeds: a delay it makes up for and an angle it commutates ahead by. */
export interface Tuning {
	/** Seconds. */
	readonly compensation: number;
	/** Degrees beyond the scenario's advance. */
	readonly advanceTrim: number;
}

/** One operating point's mean angle error under the present tuning. */
export interface PointError {
	/** Electrical degrees per second. */
	readonly speed: number;
	/** Degrees, late is +. */
	readonly mean: number;
	/** Share of the hours. */
	readonly weight: number;
}

export interface TuningLimits {
	/** Longest delay that can be compensated, seconds; the shortest is 0. */
	readonly mostCompensation: number;
	/** Degrees: how far the trim may go either way. */
	readonly leastTrim: number;
	readonly mostTrim: number;
}

/**
 * The tuning that takes out the mean errors m_p of the points as far as both
 * settings can: a delay Δt more moves commutation by −ω_p Δt, a trim a more by
 * −a, so a and Δt are the intercept and slope of the weighted least-squares line
 * m_p ≈ a + ω_p Δt. Its residuals have the weighted mean 0. With one speed only
 * the delay is used. A setting at the end of its range stays there and the other
 * one nulls the weighted mean as far as it can.
 */
export function fitTuning(points: readonly PointError[], present: Tuning, limits: TuningLimits): Tuning {
	const mean = (of: (point: PointError) => number): number =>
		points.reduce((sum, point) => sum + point.weight * of(point), 0) /
		points.reduce((sum, { weight }) => sum + weight, 0);
	const speed = mean((point) => point.speed);
	const error = mean((point) => point.mean);
	const variance = mean((point) => (point.speed - speed) * (point.speed - speed));
	const clampDelay = (delay: number): number => Math.min(limits.mostCompensation, Math.max(0, delay));
	const clampTrim = (trim: number): number => Math.min(limits.mostTrim, Math.max(limits.leastTrim, trim));

	// speeds that differ by rounding alone tell delay and angle apart no better than one
	if (!(variance > 1e-12 * speed * speed)) {
		const compensation = clampDelay(present.compensation + error / speed);
		const left = error - speed * (compensation - present.compensation);
		// only where the delay has no room left
		const isCut = Math.abs(left) > 1e-9 * (1 + Math.abs(error));
		return { compensation, advanceTrim: isCut ? clampTrim(present.advanceTrim + left) : present.advanceTrim };
	}
	const slope = mean((point) => (point.speed - speed) * point.mean) / variance;
	const delay = clampDelay(present.compensation + slope);
	const trim = present.advanceTrim + error - speed * (delay - present.compensation);
	const advanceTrim = clampTrim(trim);
	if (advanceTrim === trim) return { compensation: delay, advanceTrim };
	const rest = error - (advanceTrim - present.advanceTrim);
	return { compensation: clampDelay(present.compensation + rest / speed), advanceTrim };
}
