import { describe, expect, it, test } from 'vitest';
import { upperTail } from '../../shared/drive/sensing/acceptance-chain.ts';
import type { LimitValue } from '../../shared/rare/failure-search.ts';
import { eitherWay, type KnownLimit, paretoProduct } from './known-limits.ts';
import { runSearch } from './run-search.ts';

/** Fails where g ≤ 0; −g is the figure. */
const limitOf = (dimension: number, g: (z: Float64Array) => number): KnownLimit => ({
	name: 'given',
	dimension,
	probability: Number.NaN,
	value: (z): LimitValue => ({ fails: g(z) <= 0, figures: [-g(z)] }),
});
const z = (point: Float64Array, k: number): number => point[k] as number;

describe('points whose distance is known', () => {
	it('a plane at 4.2 along (3, 4, 0, 0)/5 is found at (2.52, 3.36, 0, 0), to 0.01', () => {
		const { found } = runSearch(limitOf(4, (p) => 4.2 - 0.6 * z(p, 0) - 0.8 * z(p, 1)));
		expect(found).toHaveLength(1);
		expect(found[0]?.distance).toBeGreaterThanOrEqual(4.2);
		expect(found[0]?.distance).toBeLessThan(4.21);
		for (const [k, value] of [2.52, 3.36, 0, 0].entries()) {
			expect(Math.abs((found[0]?.point[k] ?? 9) - value)).toBeLessThan(0.01);
		}
	});

	it('the concave limit exp(0.2 z₁ + 1.4) = z₂ lies 3.35 out, to 0.02', () => {
		// a usual exercise of the field; recomputed: min over z₁ of z₁² + exp(2 (0.2 z₁ + 1.4))
		let least = Infinity;
		for (let x = -6; x < 6; x += 1e-4) least = Math.min(least, x * x + Math.exp(2 * (0.2 * x + 1.4)));
		const { found } = runSearch(limitOf(2, (p) => Math.exp(0.2 * z(p, 0) + 1.4) - z(p, 1)));
		expect(Math.abs((found[0]?.distance ?? 9) - Math.sqrt(least))).toBeLessThan(0.02);
		expect(Math.abs(Math.sqrt(least) - 3.35)).toBeLessThan(0.01);
	});

	it('four figures either way are eight points, each 4.2 out on its own axis', () => {
		const { found } = runSearch(eitherWay(4, 4.2));
		expect(found).toHaveLength(8);
		for (const { distance } of found) expect(Math.abs(distance - 4.2)).toBeLessThan(0.01);
	});

	it('a heavy-tailed product of Pareto factors at 10⁻⁸: the nearest point is the least of the constrained minimum, to 0.5 %', () => {
		const limit = paretoProduct([1, 0.4, 0.2], 1e-8, 1);
		const { found, asked } = runSearch(limit);
		// on the limit the third coordinate follows from the first two: the least squared distance by a grid
		let least = Infinity;
		for (let a = 5; a < 6.5; a += 0.03) {
			for (let b = 0; b < 2; b += 0.05) {
				let [low, high] = [-1, 3];
				if (!limit.value(Float64Array.of(a, b, high, 0)).fails) continue;
				for (let i = 0; i < 40; i++) {
					const middle = (low + high) / 2;
					if (limit.value(Float64Array.of(a, b, middle, 0)).fails) high = middle;
					else low = middle;
				}
				least = Math.min(least, a * a + b * b + high * high);
			}
		}
		expect(Math.abs((found[0]?.distance ?? 9) / Math.sqrt(least) - 1)).toBeLessThan(0.005);
		expect(asked).toBeLessThan(300);
	});
});

test('figures with steps of 0.3 still lead to a plane at 3, within 5 %', () => {
	const stepped = limitOf(6, (p) => 3 - z(p, 0));
	const { found } = runSearch({
		...stepped,
		value: (p) => {
			const figure = p.reduce((sum, x, k) => sum + x * (k === 0 ? 1 : 0.05), 0);
			return { fails: z(p, 0) >= 3, figures: [0.3 * Math.round(figure / 0.3)] };
		},
	});
	expect(found[0]?.distance).toBeGreaterThanOrEqual(3);
	expect(found[0]?.distance).toBeLessThan(3.15);
});

test('where the middle fails, the middle is the answer; where nothing fails, there is none', () => {
	const middle = runSearch(limitOf(3, () => -1));
	expect(middle.found).toEqual([{ point: new Float64Array(3), distance: 0, figure: -1 }]);
	expect(middle.asked).toBe(1);
	expect(runSearch(limitOf(3, (p) => 20 - z(p, 0))).found).toEqual([]);
});

test('figures that do not exist lead nowhere and stop nothing', () => {
	const { found } = runSearch({
		...limitOf(2, () => 1),
		value: (p) => ({ fails: z(p, 1) > 2, figures: [Number.NaN, z(p, 1)] }),
	});
	expect(Math.abs((found[0]?.distance ?? 9) - 2)).toBeLessThan(0.01);
});

test('points beyond the slack are not followed: of planes at 3 and at 5 only the nearer is told', () => {
	const limit: KnownLimit = {
		...limitOf(2, () => 1),
		value: (p) => ({ fails: z(p, 0) > 3 || z(p, 1) > 5, figures: [z(p, 0), z(p, 1)] }),
	};
	const { found } = runSearch(limit);
	expect(found).toHaveLength(1);
	expect(found[0]?.figure).toBe(0);
	// what that leaves out is e^−8 of the share
	expect(upperTail(5) / upperTail(3)).toBeLessThan(3e-4);
});
