import { expect, test } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { clusteredDifference } from '../../shared/statistics/clustered-difference.ts';
import { kolmogorovSmirnov } from '../../shared/statistics/kolmogorov-smirnov.ts';

/** Clusters of values that share much: each has a level and a width of its own. */
function clusters(seed: string, count: number, size: number, shift = 0): Float64Array[] {
	const random = stream(seed, 'clusters');
	const normal = (): number => inverseNormal(random.double() || 0.5);
	return Array.from({ length: count }, () => {
		const level = normal() + shift;
		const width = 0.2 + random.double();
		return Float64Array.from({ length: size }, () => level + width * normal());
	});
}

test('groups of one law are told apart in 5 % of 400 cases although values of a cluster depend on each other; taken as independent, they would be in most', () => {
	let rejected = 0;
	let naive = 0;
	const cases = 400;
	for (let i = 0; i < cases; i++) {
		const [first, second] = [clusters(`a${i}`, 4, 12), clusters(`b${i}`, 30, 12)];
		if (clusteredDifference(first, second, { rearrangements: 199, seed: `${i}` }).p <= 0.05) rejected++;
		const flat = (group: Float64Array[]): number[] => group.flatMap((values) => [...values]);
		if (i < 100 && kolmogorovSmirnov(flat(first), flat(second)).p <= 0.05) naive++;
	}
	// exact: 5 % with a standard error of 1.1 % over 400 cases
	expect(Math.abs(rejected / cases - 0.05)).toBeLessThan(3 * 0.011);
	expect(naive).toBeGreaterThan(50);
});

test('with one cluster against n, p is its place among all n + 1, and can be no smaller than 1/(n + 1) but by chance', () => {
	const others = clusters('others', 39, 24);
	const far = [Float64Array.from({ length: 24 }, (_, i) => 50 + i)];
	const { d, p, chance } = clusteredDifference(far, others);
	expect(d).toBeGreaterThan(0.99);
	// 1 of 40 arrangements is as large: 2.5 %, standard error 0.35 % over 1999 rearrangements
	expect(Math.abs(p - 1 / 40)).toBeLessThan(3 * 0.0035);
	expect(chance).toBeLessThanOrEqual(1);
});

test('a shift of two standard deviations between 6 and 60 clusters is found: p below 0.005; the same groups differ by nothing: p = 1', () => {
	const [first, second] = [clusters('x', 6, 24, 2), clusters('y', 60, 24)];
	expect(clusteredDifference(first, second).p).toBeLessThan(0.005);
	expect(clusteredDifference(second, second)).toMatchObject({ d: 0, p: 1 });
	expect(clusteredDifference(first, second)).toEqual(clusteredDifference(first, second));
});

test('clusters of different sizes, and an empty group, are refused', () => {
	expect(() => clusteredDifference([[1, 2]], [[1]])).toThrow(/a cluster of 1 values beside one of 2/);
	expect(() => clusteredDifference([], [[1]])).toThrow(RangeError);
	expect(() => clusteredDifference([[1]], [])).toThrow(RangeError);
	expect(() => clusteredDifference([[]], [[]])).toThrow(RangeError);
});

test('the higher the level, the larger the differences that chance still explains', () => {
	const [first, second] = [clusters('one', 6, 10), clusters('other', 9, 10)];
	const at = (level: number) => clusteredDifference(first, second, { level, rearrangements: 199 }).chance;
	expect(at(0.5)).toBeLessThan(at(0.9));
	expect(at(0.9)).toBeLessThan(at(0.98));
});
