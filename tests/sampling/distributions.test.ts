import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { describe, expect, it } from 'vitest';
import type { Distribution, Tolerance } from '../../shared/parameters/parameter.ts';
import { deviate } from '../../shared/sampling/deviate.ts';
import { gapped } from '../../shared/sampling/gapped.ts';
import { measured } from '../../shared/sampling/measured.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';

const tolerance = (distribution: Distribution, more: Partial<Tolerance> = {}): Tolerance => ({
	scale: 'relative',
	lot: 0,
	mismatch: 1,
	distribution,
	basis: 'assumed',
	...more,
});

const inside = 2 * normalCdf(3, 0, 1) - 1;
/** Distribution functions on half-width 1. */
const distributions: Record<string, { tolerance: Tolerance; cdf: (x: number) => number }> = {
	uniform: { tolerance: tolerance('uniform'), cdf: (x) => (1 + x) / 2 },
	triangular: { tolerance: tolerance('triangular'), cdf: (x) => (x < 0 ? (1 + x) ** 2 / 2 : 1 - (1 - x) ** 2 / 2) },
	normal: { tolerance: tolerance('normal'), cdf: (x) => (normalCdf(3 * x, 0, 1) - normalCdf(-3, 0, 1)) / inside },
	gapped: { tolerance: tolerance('gapped', { gap: 0.5 }), cdf: gappedCdf },
};

function gappedCdf(x: number): number {
	const side = normalCdf(3, 0, 1) - normalCdf(1.5, 0, 1);
	if (x < -0.5) return (normalCdf(3 * x, 0, 1) - normalCdf(-3, 0, 1)) / (2 * side);
	return x < 0.5 ? 0.5 : 0.5 + (normalCdf(3 * x, 0, 1) - normalCdf(1.5, 0, 1)) / (2 * side);
}

/** Standard deviation over equal cells of the base uniform: what a sampler without error would give. */
function spread(one: Tolerance): number {
	const cells = 200_000;
	let squares = 0;
	for (let i = 0; i < cells; i++) squares += deviate(one, 1, (i + 0.5) / cells) ** 2 / cells;
	return Math.sqrt(squares);
}

describe('distributions of deviations', () => {
	// closed forms, recomputed: 1/√3, 1/√6, and σ of N(0, 1) cut off at ±3 is .9865783926
	it.each([
		['uniform', 0.5773502692],
		['triangular', 0.4082482905],
		['normal', 0.9865783926 / 3],
	])('%s on ±1 has standard deviation %s to 10⁻⁵', (name, sd) => {
		expect(spread(distributions[name]?.tolerance as Tolerance)).toBeCloseTo(sd, 5);
	});

	it('gapped on ±1 with the inner half gone has the variance of its closed form to 10⁻⁵', () => {
		// ∫ z² φ = [Φ − zφ] from 1.5 to 3, over the mass there, in units of σ = 1/3
		const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
		const mass = normalCdf(3, 0, 1) - normalCdf(1.5, 0, 1);
		const variance = (mass - 3 * density(3) + 1.5 * density(1.5)) / mass / 9;
		expect(spread(tolerance('gapped', { gap: 0.5 }))).toBeCloseTo(Math.sqrt(variance), 5);
	});

	it.each(Object.keys(distributions))(
		'20,000 draws of %s at a fixed seed pass Kolmogorov–Smirnov at the 1 per cent level',
		(name) => {
			const { tolerance: one, cdf } = distributions[name] as (typeof distributions)[string];
			const next = stream('distributions', 'check', 1);
			const draws = Float64Array.from({ length: 20_000 }, () => deviate(one, 1, next.double()));
			expect(distanceFrom(draws, cdf)).toBeLessThan(criticalDistance(draws.length));
		},
	);

	it.each(Object.keys(distributions))(
		'%s rises with its uniform, is antisymmetric and stays within the tolerance',
		(name) => {
			const one = distributions[name]?.tolerance as Tolerance;
			let last = -1;
			for (const u of [0, 2 ** -53, ...Array.from({ length: 999 }, (_, i) => (i + 1) / 1000), 1 - 2 ** -53]) {
				const x = deviate(one, 1, u);
				expect(x).toBeGreaterThanOrEqual(last);
				expect(x).toBeLessThanOrEqual(1);
				if (name !== 'gapped') expect(deviate(one, 1, 1 - u)).toBeCloseTo(-x, 12);
				last = x;
			}
			expect(deviate(one, 1, 0)).toBeCloseTo(-1, 12);
		},
	);

	it('gapped leaves nothing inside the gap, and half the mass on each side', () => {
		for (let u = 0; u < 1; u += 1e-3) {
			const x = gapped(0.05, 0.02, u);
			expect(Math.abs(x)).toBeGreaterThanOrEqual(0.02 * (1 - 1e-12));
			expect(Math.sign(x)).toBe(u < 0.5 ? -1 : 1);
		}
		expect(() => gapped(0.05, 0.05, 0.1)).toThrow(RangeError);
	});

	it('gapped with gap 0 is the normal one', () => {
		for (let u = 0.001; u < 1; u += 1e-2) {
			expect(gapped(1, 0, u)).toBeCloseTo(deviate(tolerance('normal'), 1, u), 12);
		}
	});

	it('measured gives each of five values a fifth of the uniforms, in rising order, whatever theirs', () => {
		const values = [0.3, -0.1, 0.2, 0, -0.1];
		expect([0, 0.19, 0.2, 0.39, 0.4, 0.59, 0.6, 0.79, 0.8, 1 - 2 ** -53].map((u) => measured(values, u))).toEqual([
			-0.1, -0.1, -0.1, -0.1, 0, 0, 0.2, 0.2, 0.3, 0.3,
		]);
		expect(() => measured([], 0.5)).toThrow(RangeError);
		expect(() => measured([1, Number.NaN], 0.5)).toThrow(RangeError);
	});

	it('a tolerance of 0 deviates by 0 whatever the distribution and the uniform', () => {
		for (const { tolerance: one } of Object.values(distributions)) expect(deviate(one, 0, 0.1)).toBe(0);
	});
});
