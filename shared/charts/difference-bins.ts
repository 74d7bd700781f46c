import pow from '@stdlib/math-base-special-pow';
import { roundStep } from '../maths/round-step.ts';
import type { PairDifferences } from '../study/result.ts';
import { type DegreeReach, degreeReach, reach, reachWith } from './reach.ts';

/** One bin of a picture of paired differences, degrees: drives whose half-bus error less virtual-neutral error lies in it. */
export interface DifferenceBin {
	readonly from: number;
	readonly to: number;
	readonly count: number;
	readonly share: number;
}

export interface DifferenceBins {
	readonly step: number;
	readonly bins: readonly DifferenceBin[];
	/** Drives left and right of the picture. */
	readonly outside: { readonly below: number; readonly above: number };
	/** Drives with a difference in degrees. */
	readonly total: number;
}

/** Share of drives that may lie outside on each side, so that a few do not squash the rest. */
const outsideShare = 0.005;

/**
 * The differences in bins fit for a picture: at most 4·∛n of them (twice Rice's
 * rule, common practice, since steps are rounded up) over all but the farthest
 * drives, with edges at 0. Null without a drive that has one.
 *
 * @param before an earlier result that is drawn with it: the bins reach over its drives too
 */
export function differenceBins(
	differences: PairDifferences | undefined,
	before?: PairDifferences | null,
): DifferenceBins | null {
	if (!differences) return null;
	const { start, step: fine, counts } = differences;
	const total = countOf(differences);
	if (total === 0) return null;
	const [first, last] = reach(counts, outsideShare * total);
	const wanted = Math.min(80, Math.max(10, 4 * pow(total, 1 / 3)));
	const step = Math.max(fine, roundStep(((last - first + 1) * fine) / wanted));
	const merge = Math.round(step / fine);
	const offset = Math.round(start / fine);
	const own = degreeReach(differences, outsideShare) as DegreeReach;
	const { low, high } = reachWith(own, before ? degreeReach(before, outsideShare) : null);
	// one empty bin to each side; zero is always an edge
	const from = Math.floor(low / step + slack) - 1;
	const to = Math.ceil(high / step - slack);
	const sumOf = (begin: number, end: number): number =>
		counts.slice(Math.max(0, begin), Math.max(0, end)).reduce((sum, one) => sum + one, 0);
	const edge = (n: number): number => Number((n * step).toPrecision(12));
	const bins = Array.from({ length: to - from + 1 }, (_, i): DifferenceBin => {
		const index = (from + i) * merge - offset;
		const count = sumOf(index, index + merge);
		return { from: edge(from + i), to: edge(from + i + 1), count, share: count / total };
	});
	return {
		step,
		bins,
		total,
		outside: {
			below: sumOf(0, from * merge - offset),
			above: sumOf((to + 1) * merge - offset, counts.length),
		},
	};
}

/** Of rounding, in bins. */
const slack = 1e-9;

const countOf = ({ counts }: PairDifferences): number => counts.reduce((sum, one) => sum + one, 0);

/** An earlier result's drives in the bins of the present picture, scaled to as many; a bin that the earlier grid cuts is shared out by overlap. */
export function differenceGhost(
	{ bins, total }: Pick<DifferenceBins, 'bins' | 'total'>,
	before: PairDifferences,
): readonly DifferenceBin[] {
	const all = countOf(before);
	if (all === 0) return [];
	return bins.map(({ from, to }) => {
		let inside = 0;
		for (const [i, one] of before.counts.entries()) {
			const begin = before.start + i * before.step;
			const overlap = Math.min(to, begin + before.step) - Math.max(from, begin);
			if (overlap > 0) inside += (one * overlap) / before.step;
		}
		return { from, to, count: (inside * total) / all, share: inside / all };
	});
}
