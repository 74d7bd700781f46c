/**
 * Low (−1) and high (+1) of each of `factors` conditions, run by run: all 2^k
 * combinations where they are at most `most`, else a regular fraction of them.
 *
 * The fraction takes the largest power of two that fits: that many conditions
 * are combined in full, and each further one is the product of a set of them, of
 * three or more where such sets are left (any three conditions then meet in all
 * eight combinations of their limits), else of two (any two meet in all four).
 * This is the regular two-level fractional factorial design of G. E. P. Box and
 * J. S. Hunter, Technometrics 3 (1961) 311–351.
 */
export function fraction(factors: number, most: number): readonly (readonly (1 | -1)[])[] {
	let basic = factors;
	while (1 << basic > most && basic > leastBasic(factors)) basic -= 1;
	const products = productsOf(basic).slice(0, factors - basic);
	return Array.from({ length: 1 << basic }, (_, run) => {
		const signs = Array.from({ length: basic }, (_, factor) => signOf((run >> factor) & 1));
		return [...signs, ...products.map((set) => signOf(parity(run & set, set)))];
	});
}

/** Conditions of which this many runs keep any `strength` in all combinations; infinite where nothing is left out. */
export function strengthOf(factors: number, runs: number): number {
	if (runs >= 1 << factors) return Number.POSITIVE_INFINITY;
	const basic = 31 - Math.clz32(runs);
	return factors - basic <= productsOf(basic).filter((set) => sizeOf(set) % 2 === 1).length ? 3 : 2;
}

/** Fewest runs that such a fraction can have: with b conditions in full, 2^b − 1 in all. */
export const fewestRuns = (factors: number): number => 1 << leastBasic(factors);

function leastBasic(factors: number): number {
	let basic = 0;
	while ((1 << basic) - 1 < factors) basic += 1;
	return basic;
}

/** Sets of two or more of the basic conditions, as bits: odd ones first (products of odd sets keep any three apart), the larger first among the even. */
function productsOf(basic: number): number[] {
	const sets = Array.from({ length: 1 << basic }, (_, set) => set).filter((set) => sizeOf(set) >= 2);
	const rank = (set: number): number => (sizeOf(set) % 2 === 1 ? sizeOf(set) : 100 - sizeOf(set));
	return sets.sort((one, other) => rank(one) - rank(other));
}

const signOf = (bit: number): 1 | -1 => (bit === 1 ? 1 : -1);

/** 1 where the product of the set's signs is +1. */
const parity = (high: number, set: number): number => ((sizeOf(set) - sizeOf(high)) % 2 === 0 ? 1 : 0);

function sizeOf(set: number): number {
	let size = 0;
	for (let rest = set; rest > 0; rest >>= 1) size += rest & 1;
	return size;
}
