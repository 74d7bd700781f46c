/** Largest distance between the values' empirical distribution and F. */
export function distanceFrom(values: Float64Array, distribution: (x: number) => number): number {
	const sorted = values.slice().sort();
	let distance = 0;
	for (let i = 0; i < sorted.length; i++) {
		const f = distribution(sorted[i] as number);
		distance = Math.max(distance, f - i / sorted.length, (i + 1) / sorted.length - f);
	}
	return distance;
}

/** Critical distance at 1 % for large samples: 1.62762/√n (L. H. Miller, JASA 51 (1956), table; recomputed). */
export const criticalDistance = (n: number): number => 1.62762 / Math.sqrt(n);

/** Correlation of two equally long lists. */
export function correlation(x: ArrayLike<number>, y: ArrayLike<number>): number {
	const n = x.length;
	let meanX = 0;
	let meanY = 0;
	for (let i = 0; i < n; i++) {
		meanX += (x[i] as number) / n;
		meanY += (y[i] as number) / n;
	}
	let xx = 0;
	let yy = 0;
	let xy = 0;
	for (let i = 0; i < n; i++) {
		const dx = (x[i] as number) - meanX;
		const dy = (y[i] as number) - meanY;
		xx += dx * dx;
		yy += dy * dy;
		xy += dx * dy;
	}
	return xy / Math.sqrt(xx * yy);
}
