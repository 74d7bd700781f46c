import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';

/** Up to this angle (rad) the series below are good to the last bit; beyond, the library's functions serve. */
const limit = 0.1;

/**
 * `cells[at]` becomes the cosine of what it was, `cells[at + 1]` the sine, for
 * the small angles that a phasor turns through in one stretch; Taylor, error
 * below 10⁻¹⁸ up to the limit. In an array nothing goes on the heap (decay.ts).
 */
export function turnInPlace(cells: Float64Array, at: number): void {
	const x = cells[at] as number;
	if (x > limit || x < -limit) {
		cells[at] = cosine(x);
		cells[at + 1] = sine(x);
		return;
	}
	const z = x * x;
	cells[at] = 1 - z * (1 / 2 - z * (1 / 24 - z * (1 / 720 - z * (1 / 40320 - z * (1 / 3628800)))));
	cells[at + 1] = x * (1 - z * (1 / 6 - z * (1 / 120 - z * (1 / 5040 - z * (1 / 362880)))));
}
