import { Moments } from '../../shared/statistics/moments.ts';
import type { RowedSpread } from '../../shared/statistics/spread-change.ts';

/** Standard deviation of values, and what each two of them in turn add to its square. */
export function rowsOfTwo(values: readonly number[]): RowedSpread {
	const moments = new Moments();
	for (const value of values) moments.add(value);
	const { mean, variance, count } = moments;
	const squares = Float64Array.from({ length: count / 2 }, (_, row) => {
		const [one, other] = [2 * row, 2 * row + 1].map((i) => ((values[i] as number) - mean) ** 2) as [number, number];
		return ((one + other) / 2) * (count / (count - 1));
	});
	return { sd: Math.sqrt(variance), squares };
}
