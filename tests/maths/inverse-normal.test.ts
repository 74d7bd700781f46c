import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { describe, expect, it } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';

describe('inverse normal', () => {
	it('undoes the distribution function to 1 part in 10¹³ from −8 to 8 standard deviations below the median', () => {
		for (let z = -8; z <= 0; z += 0.01) {
			expect(Math.abs(inverseNormal(normalCdf(z, 0, 1)) - z)).toBeLessThan(1e-13 * Math.max(1, -z));
		}
	});

	it('is symmetric to the last bit where 1 − p is exact', () => {
		for (let p = 2 ** -12; p < 0.5; p += 2 ** -12) expect(inverseNormal(1 - p)).toBe(-inverseNormal(p));
	});

	it('is −∞ at 0, +∞ at 1, 0 at ½ and NaN outside', () => {
		expect(inverseNormal(0)).toBe(-Infinity);
		expect(inverseNormal(1)).toBe(Infinity);
		expect(inverseNormal(0.5)).toBe(0);
		for (const p of [-1e-9, 1 + 1e-9, Number.NaN]) expect(inverseNormal(p)).toBeNaN();
	});
});
