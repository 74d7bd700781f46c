import { stream } from '../sampling/stream.ts';
import { checkLevel, checkWhole, type Interval } from './interval.ts';
import { Moments } from './moments.ts';
import { quantileOfSorted } from './quantile.ts';

/** Outputs of a pick-freeze design, row by row. */
export interface PickFreeze {
	/** f of base sample A. */
	readonly a: ArrayLike<number>;
	/** f of an independent base sample B. */
	readonly b: ArrayLike<number>;
	/** f of A with the inputs of the group in question taken from B. */
	readonly mixed: ArrayLike<number>;
}

export interface SensitivityIndices {
	/** Share of the variance that fixing the group alone would take away. */
	readonly first: number;
	/** Share that would stay if all but the group were fixed: interactions included. */
	readonly total: number;
}

/**
 * First-order and total index of a group of inputs:
 * S = mean[f_B (f_AB − f_A)]/V and S_T = mean[(f_A − f_AB)²]/2V, with V the
 * variance of f_A and f_B together; f is centred first, which leaves S unbiased
 * and takes the mean's square out of its error. NaN where f does not vary.
 *
 * Sources: A. Saltelli et al., Computer Physics Communications 181 (2010)
 * 259–270 (first order); M. J. W. Jansen, ibid. 117 (1999) 35–43 (total).
 */
export function sensitivityIndices({ a, b, mixed }: PickFreeze): SensitivityIndices {
	const rows = checkRows({ a, b, mixed });
	return indicesOf({ a, b, mixed }, rows, (row) => row);
}

/** Percentile intervals of both indices from resampling rows of the design (its rows are independent). */
export function sensitivityIntervals(
	design: PickFreeze,
	{ level = 0.95, resamples = 1000, seed = 'indices' }: { level?: number; resamples?: number; seed?: string } = {},
): { readonly first: Interval; readonly total: Interval } {
	checkLevel(level);
	checkWhole(resamples, 'resamples', 100);
	const rows = checkRows(design);
	const next = stream(seed, 'resample', rows);
	const picks = new Uint32Array(rows);
	const firsts = new Float64Array(resamples);
	const totals = new Float64Array(resamples);
	for (let resample = 0; resample < resamples; resample++) {
		for (let i = 0; i < rows; i++) picks[i] = Math.floor(next.double() * rows);
		const { first, total } = indicesOf(design, rows, (row) => picks[row] as number);
		firsts[resample] = first;
		totals[resample] = total;
	}
	const limits = (values: Float64Array): Interval => {
		const sorted = values.sort();
		return { low: quantileOfSorted(sorted, (1 - level) / 2), high: quantileOfSorted(sorted, (1 + level) / 2) };
	};
	return { first: limits(firsts), total: limits(totals) };
}

function indicesOf({ a, b, mixed }: PickFreeze, rows: number, pick: (row: number) => number): SensitivityIndices {
	const base = new Moments();
	for (let i = 0; i < rows; i++) {
		base.add(a[pick(i)] as number);
		base.add(b[pick(i)] as number);
	}
	const { mean, variance } = base;
	let products = 0;
	let squares = 0;
	for (let i = 0; i < rows; i++) {
		const row = pick(i);
		const apart = (mixed[row] as number) - (a[row] as number);
		products += ((b[row] as number) - mean) * apart;
		squares += apart * apart;
	}
	if (!(variance > 0)) return { first: Number.NaN, total: Number.NaN };
	return { first: products / rows / variance, total: squares / (2 * rows) / variance };
}

function checkRows({ a, b, mixed }: PickFreeze): number {
	if (a.length !== b.length || a.length !== mixed.length) {
		throw new RangeError(`rows of a pick-freeze design differ: ${a.length}, ${b.length}, ${mixed.length}`);
	}
	return a.length;
}
