/** Edits beyond this many have too many combinations to be run in a meeting: 2⁴ are sixteen studies. */
export const mostEditsShared = 4;

/** A set of edits as a bit mask: bit i is edit i. */
export type Edits = number;

/**
 * Which sets of edits must be known to attribute a change to `count` of them:
 * all of them up to four edits, else none, each alone, all but each, and all.
 */
export function setsNeeded(count: number): readonly Edits[] {
	const all = (1 << count) - 1;
	if (count <= mostEditsShared) return Array.from({ length: all + 1 }, (_, set) => set);
	const each = Array.from({ length: count }, (_, i) => 1 << i);
	return [...new Set([0, ...each, ...each.map((one) => all - one), all])];
}

/**
 * Each edit's share of a change, φᵢ = Σ |S|! (k − |S| − 1)! / k! · [v(S ∪ i) − v(S)]
 * over the sets S without i: its step averaged over every order in which the k
 * edits could have been made. The shares add up to v(all) − v(none); what two
 * edits do only together is shared between them.
 *
 * Source: L. S. Shapley, "A value for n-person games", Contributions to the
 * Theory of Games II (1953) 307–317.
 *
 * @param figure v, the figure with a set of edits made
 */
export function shapleyShares(count: number, figure: (set: Edits) => number): readonly number[] {
	const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
	return Array.from({ length: count }, (_, i) => {
		let share = 0;
		for (let set = 0; set < 1 << count; set++) {
			if ((set >> i) & 1) continue;
			const size = bits(set);
			const weight = (factorial(size) * factorial(count - size - 1)) / factorial(count);
			share += weight * (figure(set + (1 << i)) - figure(set));
		}
		return share;
	});
}

const bits = (set: Edits): number => {
	let sum = 0;
	for (let rest = set; rest > 0; rest >>= 1) sum += rest & 1;
	return sum;
};
