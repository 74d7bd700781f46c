/** First and last bin once so many of what was counted are taken off each end. */
export function reach(counts: readonly number[], spare: number): readonly [number, number] {
	let first = 0;
	for (let seen = counts[0] ?? 0; seen <= spare && first < counts.length - 1; seen += counts[first] ?? 0) first += 1;
	let last = counts.length - 1;
	for (let seen = counts[last] ?? 0; seen <= spare && last > first; seen += counts[last] ?? 0) last -= 1;
	return [first, last];
}

/** From where to where something lies, degrees. */
export interface DegreeReach {
	readonly low: number;
	readonly high: number;
}

/** Where a histogram's counts lie, all but a share on either side; null where it has none. */
export function degreeReach(
	{ start, step, counts }: { readonly start: number; readonly step: number; readonly counts: readonly number[] },
	outsideShare: number,
): DegreeReach | null {
	const total = counts.reduce((sum, one) => sum + one, 0);
	if (total === 0) return null;
	const [first, last] = reach(counts, outsideShare * total);
	return { low: start + first * step, high: start + (last + 1) * step };
}

/** A reach widened to an earlier one's ends, on each side at most by itself: what it is drawn for is not squashed. */
export function reachWith({ low, high }: DegreeReach, earlier: DegreeReach | null): DegreeReach {
	if (!earlier) return { low, high };
	const most = high - low;
	return {
		low: Math.max(Math.min(low, earlier.low), low - most),
		high: Math.min(Math.max(high, earlier.high), high + most),
	};
}
