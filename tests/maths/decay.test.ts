import { describe, expect, it } from 'vitest';
import { decay } from '../../shared/maths/decay.ts';
import { turnInPlace } from '../../shared/maths/small-angle.ts';

// Source: the engine's own Math functions, an independent implementation good to one unit of the last place.

describe('e^−x', () => {
	it('agrees with the library exponential to 6·10⁻¹⁶ of itself from 10⁻¹² to 700', () => {
		for (let x = 1e-12; x < 700; x *= 1.0037) {
			const exact = Math.exp(-x);
			expect(Math.abs(decay(x) - exact)).toBeLessThanOrEqual(6e-16 * exact);
		}
	});

	it('is 1 at 0, exact at the table’s steps, 0 far out', () => {
		expect(decay(0)).toBe(1);
		for (let k = 1; k < 40; k++) expect(decay(k / 8) / Math.exp(-k / 8)).toBeCloseTo(1, 15);
		expect(decay(800)).toBe(0);
	});
});

describe('sine and cosine of small angles', () => {
	it('agree with the library functions to 2·10⁻¹⁶ on both sides of where the series end', () => {
		for (let x = -0.3; x < 0.3; x += 0.00173) {
			const turn = Float64Array.of(x, 0);
			turnInPlace(turn, 0);
			expect(Math.abs((turn[1] as number) - Math.sin(x))).toBeLessThanOrEqual(2e-16);
			expect(Math.abs((turn[0] as number) - Math.cos(x))).toBeLessThanOrEqual(2e-16);
		}
	});
});
