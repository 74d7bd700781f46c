/**
 * Angle errors counted in fixed bins, so that counts of any shards add up to
 * the same whole in any order, and no list of errors has to be kept.
 */
export const angleBins = {
	/** Lower edge of the first bin, degrees. */
	start: -60,
	/** Width of a bin, degrees: the resolution of pooled quantiles. */
	step: 0.01,
	/** Up to +60°; the first and the last bin also take what lies beyond. */
	count: 12000,
} as const;

/** The bin an angle error falls in. */
export function angleBin(error: number): number {
	const bin = Math.floor((error - angleBins.start) / angleBins.step);
	return bin < 0 ? 0 : bin >= angleBins.count ? angleBins.count - 1 : bin;
}

/** The counts in wider bins, for charts and files: all lists over one grid, which spans what any of them holds. */
export function coarseHistograms(
	perChoice: readonly ArrayLike<number>[],
	fineBinsPerBin = 10,
): readonly { readonly start: number; readonly step: number; readonly counts: readonly number[] }[] {
	const wide = perChoice.map((counts) => {
		const sums = new Array<number>(angleBins.count / fineBinsPerBin).fill(0);
		for (let bin = 0; bin < angleBins.count; bin += 1) {
			const at = Math.floor(bin / fineBinsPerBin);
			sums[at] = (sums[at] ?? 0) + (counts[bin] ?? 0);
		}
		return sums;
	});
	const occupied = (at: number): boolean => wide.some((sums) => (sums[at] ?? 0) > 0);
	let first = 0;
	let end = angleBins.count / fineBinsPerBin;
	while (first < end - 1 && !occupied(first)) first += 1;
	while (end > first + 1 && !occupied(end - 1)) end -= 1;
	const perDegree = 100 / fineBinsPerBin;
	return wide.map((sums) => ({
		start: (angleBins.start * perDegree + first) / perDegree,
		step: 1 / perDegree,
		counts: sums.slice(first, end),
	}));
}
