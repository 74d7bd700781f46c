import { describe, expect, it } from 'vitest';
import { latinHypercube } from '../../shared/sampling/latin-hypercube.ts';
import { correlation } from './kolmogorov-smirnov.ts';
import { strataHit } from './strata.ts';

const dimensions = 6;
const unit = (seed: string, index: number, units: number, u = 0.5): Float64Array =>
	latinHypercube(seed, index, units, new Float64Array(dimensions).fill(u));
const column = (seed: string, units: number, dimension: number): number[] =>
	Array.from({ length: units }, (_, index) => unit(seed, index, units)[dimension] as number);

describe('Latin hypercube', () => {
	it.each([1, 2, 3, 5, 16, 17, 100, 1000, 4099])('each dimension of %i units falls once into each stratum', (units) => {
		for (let dimension = 0; dimension < dimensions; dimension++) {
			expect(strataHit(column('demo', units, dimension))).toBe(units);
		}
	});

	it('every order of three units comes about equally often over 6,000 seeds (χ², 5 degrees of freedom, below the 99.9 % point 20.5)', () => {
		const counts = new Map<string, number>();
		for (let seed = 0; seed < 6000; seed++) {
			const order = column(`s${seed}`, 3, 1)
				.map((u) => Math.floor(3 * u))
				.join('');
			counts.set(order, (counts.get(order) ?? 0) + 1);
		}
		expect(counts.size).toBe(6);
		const chiSquare = [...counts.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
		expect(chiSquare).toBeLessThan(20.5);
	});

	it('dimensions, and neighbouring units, are not correlated over 4,000 units (4 standard errors)', () => {
		const [first, second] = [column('demo', 4000, 0), column('demo', 4000, 1)] as [number[], number[]];
		expect(Math.abs(correlation(first, second))).toBeLessThan(4 / Math.sqrt(4000));
		expect(Math.abs(correlation(first.slice(1), first.slice(0, -1)))).toBeLessThan(4 / Math.sqrt(4000));
	});

	it("a unit's own uniform places it within its stratum", () => {
		const [low, high] = [unit('demo', 7, 20, 0), unit('demo', 7, 20, 0.999)];
		low.forEach((u, dimension) => {
			expect(u * 20).toBeCloseTo(Math.round(u * 20), 10);
			expect(((high[dimension] as number) - u) * 20).toBeCloseTo(0.999, 10);
		});
	});

	it('refuses a unit that is not one of them', () => {
		for (const [index, units] of [
			[5, 5],
			[-1, 5],
			[0.5, 5],
			[0, 2 ** 31],
		] as const) {
			expect(() => unit('demo', index, units)).toThrow(RangeError);
		}
	});
});
