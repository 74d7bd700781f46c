import type { Series } from './preferred-series.ts';

/** Widest tolerance first. Common practice of the trade; IEC 60063 ties each series to the tolerance whose steps it closes. */
const seriesFrom: readonly (readonly [tolerance: number, series: Series])[] = [
	[0.2, 'E6'],
	[0.1, 'E12'],
	[0.05, 'E24'],
	[0.02, 'E48'],
	[0.01, 'E96'],
];

/** The series that resistors of a tolerance (a fraction) are usually bought in: 5 % E24, 2 % E48, 1 % E96, tighter ones E192. */
export function usualSeries(tolerance: number): Series {
	return seriesFrom.find(([from]) => tolerance >= from)?.[1] ?? 'E192';
}
