import { histogramQuantile } from '../statistics/histogram-quantile.ts';
import { angleBins } from './angle-histogram.ts';

export interface PooledErrors {
	/** Counts in the bins of angle-histogram.ts. */
	readonly counts: ArrayLike<number>;
	/** Their sum. */
	readonly total: number;
	/** Exact extremes, degrees. */
	readonly lowest: number;
	readonly highest: number;
}

/**
 * Quantile of counted angle errors, degrees: to a bin (0.01°) inside ±60°. What
 * lies beyond, as the last error of a lost run does, is taken as spread evenly
 * up to the exact extreme. NaN without errors.
 */
export function pooledQuantile({ counts, total, lowest, highest }: PooledErrors, share: number): number {
	if (total === 0) return Number.NaN;
	const { start, step, count } = angleBins;
	const rank = share * total;
	const first = counts[0] as number;
	const last = counts[count - 1] as number;
	if (rank <= first) return lowest + (rank / first) * (Math.min(start + step, highest) - lowest);
	if (rank > total - last) {
		return highest - ((total - rank) / last) * (highest - Math.max(start + step * (count - 1), lowest));
	}
	return Math.min(highest, Math.max(lowest, histogramQuantile({ start, step, counts }, share)));
}
