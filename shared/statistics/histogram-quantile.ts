import { checkLevel } from './interval.ts';

/**
 * Quantile of values of which only counts in equal bins are kept, taken as
 * spread evenly inside each bin: off by at most one step. NaN without counts.
 *
 * @param start lower edge of the first bin
 * @param counts values in each bin; the first and last may hold what lies beyond, and then bound the answer
 */
export function histogramQuantile(
	{ start, step, counts }: { readonly start: number; readonly step: number; readonly counts: ArrayLike<number> },
	p: number,
): number {
	if (p !== 0 && p !== 1) checkLevel(p, 'quantile');
	if (!(step > 0)) throw new RangeError(`bin width ${step} must be above 0`);
	let total = 0;
	for (let bin = 0; bin < counts.length; bin++) total += counts[bin] as number;
	if (total === 0) return Number.NaN;
	const wanted = p * total;
	let below = 0;
	let last = 0;
	for (let bin = 0; bin < counts.length; bin++) {
		const here = counts[bin] as number;
		if (here === 0) continue;
		last = bin;
		if (below + here >= wanted) return start + step * (bin + (wanted - below) / here);
		below += here;
	}
	return start + step * (last + 1);
}
