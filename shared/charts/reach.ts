/** First and last bin once so many of what was counted are taken off each end. */
export function reach(counts: readonly number[], spare: number): readonly [number, number] {
	let first = 0;
	for (let seen = counts[0] ?? 0; seen <= spare && first < counts.length - 1; seen += counts[first] ?? 0) first += 1;
	let last = counts.length - 1;
	for (let seen = counts[last] ?? 0; seen <= spare && last > first; seen += counts[last] ?? 0) last -= 1;
	return [first, last];
}
