import { stream } from '../sampling/stream.ts';
import { checkLevel, checkWhole } from './interval.ts';

export interface ClusteredDifference {
	/** Largest difference between the two cumulative shares, and the value at which it is found. */
	readonly d: number;
	readonly at: number;
	/** Share of rearrangements of whole clusters that differ by at least as much. */
	readonly p: number;
	/** Difference that only so few rearrangements exceed as the level leaves: below it, chance is an explanation. */
	readonly chance: number;
}

/** Values at which the distribution functions are compared. */
const gridSize = 400;

/**
 * Whether two groups of clusters have one distribution of values, where the
 * values of a cluster depend on each other in any way: D = max |F₁ − F₂| of the
 * groups' pooled distribution functions (on 400 quantiles of all values), and
 * its distribution when whole clusters are dealt out anew to the two groups. If
 * clusters are exchangeable, p is exact (counting the arrangement found among
 * them), whatever the dependence within; each must hold equally many values.
 *
 * Sources: E. J. G. Pitman, Supplement to the Journal of the Royal Statistical
 * Society 4 (1937) 119–130; the count of the arrangement found: B. Phipson and
 * G. K. Smyth, Statistical Applications in Genetics and Molecular Biology 9
 * (2010) article 39.
 *
 * @param seed of the rearrangements; the same seed gives the same p
 */
export function clusteredDifference(
	first: readonly ArrayLike<number>[],
	second: readonly ArrayLike<number>[],
	{ level = 0.95, rearrangements = 1999, seed = 'clusters' } = {},
): ClusteredDifference {
	checkLevel(level);
	checkWhole(rearrangements, 'rearrangements', 99);
	const clusters = [...first, ...second];
	const size = clusters[0]?.length ?? 0;
	const [m, n] = [first.length, second.length];
	if (m === 0 || n === 0 || size === 0) throw new RangeError(`${m} and ${n} clusters of ${size} values`);
	for (const { length } of clusters) {
		if (length !== size) throw new RangeError(`a cluster of ${length} values beside one of ${size}`);
	}
	const grid = quantileGrid(clusters);
	// counts, so that equal arrangements are equal to the last bit
	const counts = clusters.map((values) => cumulativeCounts(values, grid));
	const whole = new Float64Array(grid.length);
	for (const own of counts) for (let k = 0; k < whole.length; k++) whole[k] = (whole[k] as number) + (own[k] as number);

	const part = new Float64Array(grid.length);
	/** m n D times the values of a cluster, and its place. */
	const largest = (chosen: ArrayLike<number>): { gap: number; place: number } => {
		part.fill(0);
		for (let c = 0; c < m; c++) {
			const own = counts[chosen[c] as number] as Float64Array;
			for (let k = 0; k < part.length; k++) part[k] = (part[k] as number) + (own[k] as number);
		}
		let [most, place] = [0, 0];
		for (let k = 0; k < part.length; k++) {
			const gap = Math.abs(n * (part[k] as number) - m * ((whole[k] as number) - (part[k] as number)));
			if (gap > most) [most, place] = [gap, k];
		}
		return { gap: most, place };
	};
	const order = Uint32Array.from(clusters, (_, i) => i);
	const found = largest(order);
	const random = stream(seed, 'rearrangements');
	const others = new Float64Array(rearrangements);
	// the arrangement found is one of those dealt out
	let asLarge = 1;
	for (let r = 0; r < rearrangements; r++) {
		for (let c = 0; c < m; c++) {
			const other = c + Math.floor(random.double() * (order.length - c));
			[order[c], order[other]] = [order[other] as number, order[c] as number];
		}
		const { gap } = largest(order);
		others[r] = gap;
		if (gap >= found.gap) asLarge++;
	}
	others.sort();
	return {
		d: found.gap / (m * n * size),
		at: grid[found.place] as number,
		p: asLarge / (rearrangements + 1),
		chance: (others[Math.ceil(level * rearrangements) - 1] as number) / (m * n * size),
	};
}

/** Distinct values at evenly spaced ranks of all values. */
function quantileGrid(clusters: readonly ArrayLike<number>[]): Float64Array {
	const all = Float64Array.from(clusters.flatMap((values) => Array.from(values))).sort();
	const grid = new Set<number>();
	for (let k = 0; k < gridSize; k++) grid.add(all[Math.floor(((k + 0.5) / gridSize) * all.length)] as number);
	return Float64Array.from(grid);
}

/** How many of the values are at or below each of the grid's. */
function cumulativeCounts(values: ArrayLike<number>, grid: Float64Array): Float64Array {
	const sorted = Float64Array.from(values).sort();
	let below = 0;
	return grid.map((limit) => {
		while (below < sorted.length && (sorted[below] as number) <= limit) below++;
		return below;
	});
}
