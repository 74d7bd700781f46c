import { describe, expect, it } from 'vitest';
import { partSlots } from '../../shared/sampling/draw-parts.ts';
import { directionNumbers, scrambledSobol, sobolDimensions } from '../../shared/sampling/sobol.ts';
import { criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';
import { strataHit } from './strata.ts';

/** Coordinates of point `index` without a scramble. */
const plain = (index: number, dimension: number): number => {
	let point = 0;
	for (let k = 0; index >>> k > 0; k++) if ((index >>> k) & 1) point ^= directionNumbers(dimension)[k] as number;
	return (point >>> 0) * 2 ** -32;
};

/** The k-th point in the order of the Gray code, in which the sequence is published. */
const inGrayOrder = (k: number): number => k ^ (k >>> 1);

/** The first ten points in ten dimensions as printed on Joe and Kuo's page on Sobol' sequences. */
const published = [
	[0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
	[0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
	[0.75, 0.25, 0.25, 0.25, 0.75, 0.75, 0.25, 0.75, 0.75, 0.75],
	[0.25, 0.75, 0.75, 0.75, 0.25, 0.25, 0.75, 0.25, 0.25, 0.25],
	[0.375, 0.375, 0.625, 0.875, 0.375, 0.125, 0.375, 0.875, 0.875, 0.625],
	[0.875, 0.875, 0.125, 0.375, 0.875, 0.625, 0.875, 0.375, 0.375, 0.125],
	[0.625, 0.125, 0.875, 0.625, 0.625, 0.875, 0.125, 0.125, 0.125, 0.375],
	[0.125, 0.625, 0.375, 0.125, 0.125, 0.375, 0.625, 0.625, 0.625, 0.875],
	[0.1875, 0.3125, 0.9375, 0.4375, 0.5625, 0.3125, 0.4375, 0.9375, 0.9375, 0.3125],
	[0.6875, 0.8125, 0.4375, 0.9375, 0.0625, 0.8125, 0.9375, 0.4375, 0.4375, 0.8125],
];

const points = (seed: string, count: number, dimensions: number): Float64Array[] =>
	Array.from({ length: count }, (_, index) => scrambledSobol(seed, index, new Float64Array(dimensions)));

describe("Sobol' points", () => {
	it('the first ten in ten dimensions are the published ones', () => {
		const found = published.map((row, k) => row.map((_, dimension) => plain(inGrayOrder(k), dimension)));
		expect(found).toEqual(published);
	});

	it('point 1000 is that of an independent implementation (scipy.stats.qmc.Sobol 1.17.1), up to dimension 128', () => {
		expect([0, 1, 9, 39, 72, 127].map((dimension) => plain(inGrayOrder(1000), dimension))).toEqual([
			0.2197265625, 0.0966796875, 0.0693359375, 0.4794921875, 0.9111328125, 0.5439453125,
		]);
	});

	it('every part has a dimension of its own, with room for more; beyond the table it says so', () => {
		expect(partSlots.length).toBeLessThanOrEqual(sobolDimensions);
		expect(() => directionNumbers(sobolDimensions)).toThrow(RangeError);
	});

	it.each([1, 2, 16, 256, 4096])(
		'the first %i scrambled points fall one into each equal stratum, in all 128 dimensions',
		(count) => {
			const all = points('net', count, sobolDimensions);
			for (let dimension = 0; dimension < sobolDimensions; dimension++) {
				const column = all.map((point) => point[dimension] as number);
				expect(strataHit(column)).toBe(count);
			}
		},
	);

	it('so do the 256 points from 256 on, and the 64 from 1984 on', () => {
		const all = points('net', 2048, 20);
		for (let dimension = 0; dimension < 20; dimension++) {
			const column = all.map((point) => point[dimension] as number);
			expect(strataHit(column.slice(256, 512))).toBe(256);
			expect(strataHit(column.slice(1984))).toBe(64);
		}
	});

	it('the first two dimensions are a (0, 8, 2)-net, scrambled or not: each of the 9 ways to cut 256 boxes holds one point a box', () => {
		const all = points('net', 256, 2);
		for (let columns = 0; columns <= 8; columns++) {
			const boxes = new Set(
				all.map(
					([x = 0, y = 0]) => Math.floor(x * 2 ** columns) * 2 ** (8 - columns) + Math.floor(y * 2 ** (8 - columns)),
				),
			);
			expect(boxes.size).toBe(256);
		}
	});

	it('over 4,000 scrambles one point is uniform, and two dimensions of it are independent (4 standard errors)', () => {
		const found = Array.from({ length: 4000 }, (_, seed) => scrambledSobol(`s${seed}`, 5, new Float64Array(2)));
		const [first, second] = [0, 1].map((dimension) => found.map((point) => point[dimension] as number));
		for (const column of [first, second]) {
			expect(distanceFrom(Float64Array.from(column ?? []), (x) => x)).toBeLessThan(criticalDistance(4000));
		}
		const product = found.reduce((sum, [x = 0, y = 0]) => sum + 12 * (x - 0.5) * (y - 0.5), 0) / 4000;
		expect(Math.abs(product)).toBeLessThan(4 / Math.sqrt(4000));
	});

	it('the error of the mean of a smooth function falls by more than n^-1.2, where independent draws have n^-0.5', () => {
		// ∏(1 + c_d (u_d − ½)) with c = 1/d²: mean 1, smooth, all interactions
		const rms = (count: number): number => {
			let squares = 0;
			for (let scramble = 0; scramble < 64; scramble++) {
				let sum = 0;
				for (const point of points(`rate ${scramble}`, count, 8)) {
					sum += point.reduce((value, u, d) => value * (1 + (u - 0.5) / ((d + 1) * (d + 1))), 1);
				}
				squares += (sum / count - 1) ** 2;
			}
			return Math.sqrt(squares / 64);
		};
		const [few, many] = [rms(32), rms(1024)];
		expect(Math.log(few / many) / Math.log(32)).toBeGreaterThan(1.2);
	});

	it('a dimension hangs on seed, index and its own number alone', () => {
		const wide = scrambledSobol('demo', 77, new Float64Array(60));
		scrambledSobol('other', 3, new Float64Array(9));
		const narrow = scrambledSobol('demo', 77, new Float64Array(12));
		expect(narrow).toEqual(wide.slice(0, 12));
		expect(scrambledSobol('other', 77, new Float64Array(12))).not.toEqual(narrow);
	});

	it('an index of 31 digits is as exact as the first', () => {
		const at = scrambledSobol('far', 2 ** 31 + 5, new Float64Array(3));
		for (const u of at) expect(u >= 0 && u < 1).toBe(true);
		expect(at).not.toEqual(scrambledSobol('far', 5, new Float64Array(3)));
	});
});
