import { describe, expect, it } from 'vitest';
import { decayInPlace } from '../../shared/maths/decay.ts';

const decay = (x: number): number => {
	const cells = new Float64Array([x]);
	decayInPlace(cells, 0);
	return cells[0] as number;
};

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
