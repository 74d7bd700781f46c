/**
 * A Newton step shorter than this share of the fastest time constant is the last, its result taken from Taylor's
 * series to the third order: what that leaves out is below 3·10⁻¹⁵ of what decays.
 */
export const shortShare = 5e-4;

/** e^−x by the same series; so short that the compiler puts it in place. */
export const shortDecay = (x: number): number => 1 - x * (1 - 0.5 * x * (1 - (1 / 3) * x));

/** The step that makes value + rate·step + … zero: newton + bend·step² + twist·step³, `newton` being −value/rate; with |bend·newton| < 10⁻³ two rounds are enough. */
export const shortStep = (newton: number, bend: number, twist: number): number => {
	const step = newton + newton * newton * (bend + twist * newton);
	return newton + step * step * (bend + twist * step);
};

/** Cosine and sine of an angle so short that Taylor's series to the third order serves. */
export const shortCosine = (angle: number): number => 1 - 0.5 * angle * angle;
export const shortSine = (angle: number): number => angle * (1 - (1 / 6) * angle * angle);
