import { expect, test } from 'vitest';
import { kolmogorovSmirnov } from '../../shared/statistics/kolmogorov-smirnov.ts';

const choose = (n: number, k: number): number => {
	let product = 1;
	for (let i = 1; i <= k; i++) product = (product * (n - k + i)) / i;
	return k < 0 ? 0 : Math.round(product);
};

/** Two samples of n values whose distribution functions differ by k/n at most: k of the first come before all others, then they alternate. */
function apart(n: number, k: number): [number[], number[]] {
	const first = Array.from({ length: n }, (_, i) => (i < k ? i : 2 * i + 100));
	const second = Array.from({ length: n }, (_, i) => 2 * (i + k) + 99);
	return [first, second];
}

test('for equal samples p is Gnedenko and Korolyuk’s 2[C(2n, n − k) − C(2n, n − 2k) + …]/C(2n, n), to 1e-12', () => {
	// B. V. Gnedenko and V. S. Korolyuk, Doklady Akademii Nauk SSSR 80 (1951) 525–528: closed form, recomputed here
	for (const n of [1, 4, 10, 25]) {
		for (let k = 1; k <= n; k++) {
			let sum = 0;
			for (let j = 1; j * k <= n; j++) sum += (j % 2 === 1 ? 2 : -2) * choose(2 * n, n - j * k);
			const { d, p } = kolmogorovSmirnov(...apart(n, k));
			expect([n, k, d]).toEqual([n, k, k / n]);
			expect(p).toBeCloseTo(sum / choose(2 * n, n), 12);
		}
	}
});

test('with 10 and 10 values a D of 7/10 is needed for 5 %, as tables have it: 6/10 has p = 0.0524, 7/10 has 0.0123', () => {
	// critical value 7 (of 10) at 5 % two-sided: S. Siegel, Nonparametric Statistics (1956), table L (from memory)
	expect(kolmogorovSmirnov(...apart(10, 6)).p).toBeCloseTo(0.0524, 4);
	expect(kolmogorovSmirnov(...apart(10, 7)).p).toBeCloseTo(0.0123, 4);
});

test('for 3 and 5 values p is the share of all 56 orders that differ by as much, and no larger p is ever claimed for a larger D', () => {
	const orders: number[][] = [];
	for (let set = 0; set < 256; set++) {
		const places = Array.from({ length: 8 }, (_, i) => i).filter((i) => (set >> i) & 1);
		if (places.length === 3) orders.push(places);
	}
	expect(orders.length).toBe(56);
	const found = orders.map((first) => {
		const second = Array.from({ length: 8 }, (_, i) => i).filter((i) => !first.includes(i));
		return kolmogorovSmirnov(first, second);
	});
	for (const { d, p } of found) {
		expect(p).toBeCloseTo(found.filter((other) => other.d >= d - 1e-12).length / 56, 12);
	}
});

test('a sample against itself, one value against one, ties: D as it is, p up to 1; empty samples are refused', () => {
	expect(kolmogorovSmirnov([1, 2, 3], [1, 2, 3])).toEqual({ d: 0, p: 1 });
	expect(kolmogorovSmirnov([1], [2])).toEqual({ d: 1, p: 1 });
	expect(kolmogorovSmirnov([1, 1, 2], [1, 2, 2]).d).toBeCloseTo(1 / 3, 12);
	// as measured, in no order
	expect(kolmogorovSmirnov([3, 1, 2], [1.5, 2.5, 0.5])).toEqual(kolmogorovSmirnov([1, 2, 3], [0.5, 1.5, 2.5]));
	expect(kolmogorovSmirnov([3, 1, 2], [1.5, 2.5, 0.5]).d).toBeCloseTo(1 / 3, 12);
	expect(() => kolmogorovSmirnov([], [1])).toThrow(RangeError);
});
