import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { checkLevel, type Interval } from './interval.ts';
import { medianUnbiasedQuantile } from './median-unbiased-quantile.ts';

/** A figure estimated once by each of several independent replicates of a study. */
export interface ReplicateEstimate {
	/** Over all replicates; infinite where it is. */
	readonly estimate: number;
	/** Null where it cannot be told: fewer than two replicates, an infinite one, or none that differs from another. */
	readonly interval: Interval | null;
}

/**
 * Student's interval over R independent replicates: x̄ ± t_{R−1} s/√R. All that it asks of a replicate is that its
 * estimate is about normal; how the draws within it hang together is no matter, which is why it suits stratified and
 * quasi-random draws (A. B. Owen, "Practical Quasi-Monte Carlo Integration", 2023, chapter 17). It holds the mean of
 * what a replicate estimates: a bias that all of them share stays.
 *
 * @param estimates one of each replicate
 */
export function replicateInterval(estimates: ArrayLike<number>, level: number): ReplicateEstimate {
	checkLevel(level);
	const count = estimates.length;
	let sum = 0;
	for (let i = 0; i < count; i += 1) sum += estimates[i] as number;
	const estimate = count === 0 ? Number.NaN : sum / count;
	let squares = 0;
	for (let i = 0; i < count; i += 1) {
		const off = (estimates[i] as number) - estimate;
		squares += off * off;
	}
	if (count < 2 || !(squares > 0 && Number.isFinite(squares))) return { estimate, interval: null };
	const reach = Math.sqrt(squares / (count - 1) / count) * tQuantile((1 + level) / 2, count - 1);
	return { estimate, interval: { low: estimate - reach, high: estimate + reach } };
}

/**
 * A share of the units, as `replicateInterval` of the replicates' shares; without an interval where fewer than ten
 * units lie on either side, since the shares are then far from normal.
 *
 * @param counts units counted, one of each replicate
 * @param units of each replicate
 */
export function replicateShare(counts: ArrayLike<number>, units: number, level: number): ReplicateEstimate {
	const found = replicateInterval(
		Array.from(counts, (count) => count / units),
		level,
	);
	const all = Array.from(counts).reduce((sum, count) => sum + count, 0);
	const { estimate, interval } = found;
	if (interval === null || all < fewest || counts.length * units - all < fewest) return { estimate, interval: null };
	return { estimate, interval: { low: Math.max(0, interval.low), high: Math.min(1, interval.high) } };
}

/**
 * Difference of two shares of the same units, as `replicateInterval` of the replicates' differences; without an interval
 * where those come to fewer than ten units, counted either way: with a few the differences are far from normal.
 *
 * @param differences units of the one share less those of the other, one of each replicate
 * @param units of each replicate
 */
export function replicateShareDifference(
	differences: ArrayLike<number>,
	units: number,
	level: number,
): ReplicateEstimate {
	const all = Array.from(differences);
	const found = replicateInterval(
		all.map((difference) => difference / units),
		level,
	);
	const isFew = all.reduce((sum, difference) => sum + Math.abs(difference), 0) < fewest;
	return isFew ? { ...found, interval: null } : found;
}

const fewest = 10;

/**
 * Quantile of all replicates' values together, with the interval of R. S. Woodruff, J. Am. Stat. Assoc. 47 (1952)
 * 635–646: the replicates' shares below it say how far off its share may be (Student's t), and the values at the two
 * outermost shares are the limits. The mean of the replicates' own quantiles would carry the bias of a small sample's
 * quantile, against which stratified draws have a narrow interval.
 *
 * @param replicates values of each replicate, infinite ones allowed; sorted here
 */
export function replicateQuantile(replicates: readonly Float64Array[], p: number, level: number): ReplicateEstimate {
	checkLevel(p, 'quantile');
	const all = Float64Array.from(replicates.flatMap((values) => [...values])).sort();
	const estimate = medianUnbiasedQuantile(all, p);
	const below = replicates.map((values) => values.filter((value) => value <= estimate).length / values.length);
	const { estimate: share, interval } = replicateInterval(below, level);
	if (!Number.isFinite(estimate) || interval === null) return { estimate, interval: null };
	const reach = interval.high - share;
	// beyond the outermost values nothing is known
	const outermost = 1 / all.length;
	if (p - reach < outermost || p + reach > 1 - outermost) return { estimate, interval: null };
	const limit = (at: number): number => medianUnbiasedQuantile(all, at);
	return { estimate, interval: { low: limit(p - reach), high: limit(p + reach) } };
}
