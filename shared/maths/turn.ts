import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';

/** Up to this angle (rad) the series below are good to the last bit. */
const limit = 0.1;

/** A full turn in so many steps, each less than the limit; cosines and sines of them. */
const steps = 64;
const cosines = new Float64Array(steps);
const sines = new Float64Array(steps);
for (let k = 0; k < steps; k++) {
	// from the first eighth of a turn, where an angle's own rounding is least
	const inQuarter = k % 16;
	const angle = (2 * Math.PI * Math.min(inQuarter, 16 - inQuarter)) / steps;
	let re = inQuarter <= 8 ? cosine(angle) : sine(angle);
	let im = inQuarter <= 8 ? sine(angle) : cosine(angle);
	for (let quarter = k >> 4; quarter > 0; quarter--) [re, im] = [-im, re];
	cosines[k] = re;
	sines[k] = im;
}
/** π − Math.PI, from memory; the tests would show a wrong one at large angles. */
const restOfPi = 1.2246467991473532e-16;
/** 2π/64 in two parts, the first with so few bits that its product with a count of steps is exact. */
const coarse = Math.round(((2 * Math.PI) / steps) * 2 ** 30) / 2 ** 30;
const fine = (2 * Math.PI) / steps - coarse + (2 * restOfPi) / steps;
/** Beyond this (rad) the library's functions serve. */
const farthest = 1e4;

/**
 * `cells[at]` becomes the cosine of what it was, `cells[at + 1]` the sine: the
 * nearest of 64 steps from a table, the rest by Taylor's series, whose error is
 * below 10⁻¹⁸. For the angles that a phasor turns through in one stretch; the
 * same digits in every engine. In an array nothing goes on the heap (decay.ts).
 */
export function turnInPlace(cells: Float64Array, at: number): void {
	const x = cells[at] as number;
	let r = x;
	let c = 1;
	let s = 0;
	if (x > limit || x < -limit) {
		if (!(x < farthest && x > -farthest)) {
			cells[at] = cosine(x);
			cells[at + 1] = sine(x);
			return;
		}
		const k = Math.floor(x * (steps / (2 * Math.PI)) + 0.5);
		r = x - k * coarse - k * fine;
		c = cosines[k & (steps - 1)] as number;
		s = sines[k & (steps - 1)] as number;
	}
	const z = r * r;
	const rc = 1 - z * (1 / 2 - z * (1 / 24 - z * (1 / 720 - z * (1 / 40320 - z * (1 / 3628800)))));
	const rs = r * (1 - z * (1 / 6 - z * (1 / 120 - z * (1 / 5040 - z * (1 / 362880)))));
	cells[at] = c * rc - s * rs;
	cells[at + 1] = s * rc + c * rs;
}
