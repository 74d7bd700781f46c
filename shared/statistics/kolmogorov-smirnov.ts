/** Cells of the exact distribution's table: a second or so. */
const mostCells = 5e7;

/**
 * Two-sample Kolmogorov–Smirnov test: D = sup |F₁(x) − F₂(x)| of the empirical
 * distribution functions, and the exact probability that independent samples of
 * one continuous distribution differ by at least as much.
 *
 * All orders of the m + n values are equally likely then, each a path from (0, 0)
 * to (m, n). With c(i, j) the share of paths to (i, j) on which |i/m − j/n| stays
 * below D,
 *
 *     c(i, j) = [i c(i − 1, j) + j c(i, j − 1)] / (i + j),   p = 1 − c(m, n).
 *
 * With ties p is on the safe side. Both samples must be of independent values:
 * not readings of one drive.
 *
 * Source: J. L. Hodges, Arkiv för Matematik 3 (1958) 469–486.
 */
export function kolmogorovSmirnov(
	first: ArrayLike<number>,
	second: ArrayLike<number>,
): { readonly d: number; readonly p: number } {
	const [m, n] = [first.length, second.length];
	if (m === 0 || n === 0) throw new RangeError(`samples of ${m} and ${n} values cannot be compared`);
	if (m * n > mostCells) throw new RangeError(`${m} by ${n} values are too many for the exact distribution`);
	const most = largestGap(Float64Array.from(first).sort(), Float64Array.from(second).sort());
	// gaps are whole multiples of 1/(m n): compared as integers
	const isWithin = (i: number, j: number): boolean => Math.abs(i * n - j * m) < most;
	const row = new Float64Array(n + 1);
	for (let i = 0; i <= m; i++) {
		for (let j = 0; j <= n; j++) {
			if (!isWithin(i, j)) row[j] = 0;
			else if (i + j === 0) row[j] = 1;
			else row[j] = (i * (row[j] as number) + j * (j > 0 ? (row[j - 1] as number) : 0)) / (i + j);
		}
	}
	return { d: most / (m * n), p: Math.min(1, 1 - (row[n] as number)) };
}

/** m n D of two sorted samples. */
function largestGap(first: Float64Array, second: Float64Array): number {
	const [m, n] = [first.length, second.length];
	let most = 0;
	for (let i = 0, j = 0; i < m && j < n; ) {
		const value = Math.min(first[i] as number, second[j] as number);
		while (i < m && (first[i] as number) === value) i++;
		while (j < n && (second[j] as number) === value) j++;
		most = Math.max(most, Math.abs(i * n - j * m));
	}
	return most;
}
