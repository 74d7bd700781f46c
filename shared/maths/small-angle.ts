import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';

/** Up to this angle (rad) the series below are good to the last bit or two. */
const limit = 0.5;

/** sin x; a Taylor series for the small angles that a phasor turns through in one stretch. Error below 2e-17 there. */
export function smallSine(x: number): number {
	if (x > limit || x < -limit) return sine(x);
	const z = x * x;
	return x * (1 - (z / 6) * (1 - (z / 20) * (1 - (z / 42) * (1 - (z / 72) * (1 - (z / 110) * (1 - z / 156))))));
}

/** cos x, likewise. */
export function smallCosine(x: number): number {
	if (x > limit || x < -limit) return cosine(x);
	const z = x * x;
	return (
		1 - (z / 2) * (1 - (z / 12) * (1 - (z / 30) * (1 - (z / 56) * (1 - (z / 90) * (1 - (z / 132) * (1 - z / 182))))))
	);
}
