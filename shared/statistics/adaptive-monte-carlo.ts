import { coverageInterval } from './coverage-interval.ts';
import { checkLevel, checkWhole } from './interval.ts';
import { Moments } from './moments.ts';

/** Figures of one batch of draws, or of all of them. */
export interface DrawFigures {
	readonly mean: number;
	/** Standard deviation of the quantity (its standard uncertainty). */
	readonly sd: number;
	/** Limits of the coverage interval. */
	readonly low: number;
	readonly high: number;
}

export interface Settled extends DrawFigures {
	readonly draws: number;
	/** Numerical tolerance δ that the digits asked for stand for. */
	readonly tolerance: number;
	/** Standard error of each figure over the batches. */
	readonly errors: DrawFigures;
	/** False where the ceiling was met first. */
	readonly settled: boolean;
}

/**
 * Monte Carlo until the figures stand still: batches of draws are added until
 * twice the standard error of mean, standard deviation and both interval limits
 * is below the numerical tolerance of the standard deviation at `digits`
 * significant digits. The figures are then those of all draws.
 *
 * Source: JCGM 101:2008, 7.9.
 *
 * @param drawBatch the values of batch 0, 1, 2, …, of the size it is told
 */
export function adaptiveMonteCarlo(
	drawBatch: (batch: number, size: number) => Float64Array,
	{
		probability = 0.95,
		digits = 2,
		maxBatches = 1000,
		kind = 'symmetric',
	}: {
		readonly probability?: number;
		readonly digits?: number;
		readonly maxBatches?: number;
		readonly kind?: 'symmetric' | 'shortest';
	} = {},
): Settled {
	checkWhole(maxBatches, 'batches', 2);
	const size = batchSize(probability);
	const batches: DrawFigures[] = [];
	const all = new Moments();
	const values: Float64Array[] = [];
	for (;;) {
		const batch = drawBatch(batches.length, size);
		batches.push(drawFigures(batch, probability, kind));
		for (const value of batch) all.add(value);
		values.push(batch);
		const { tolerance, errors, settled } = settling(batches, all.sd, digits);
		if (settled || batches.length === maxBatches) {
			const pooled = new Float64Array(all.count);
			let at = 0;
			for (const each of values) {
				pooled.set(each, at);
				at += each.length;
			}
			return { ...drawFigures(pooled, probability, kind), draws: all.count, tolerance, errors, settled };
		}
	}
}

/** Draws in a batch: M = max(J, 10⁴), J the smallest whole number of at least 100/(1 − p) (7.9.4 b, c). */
export function batchSize(probability: number): number {
	checkLevel(probability, 'coverage probability');
	// 1 − 0.95 is a rounding above 0.05
	return Math.max(Math.ceil(100 / (1 - probability) - 1e-6), 10_000);
}

/**
 * Whether batches agree to `digits` significant digits of `sd` (7.9.4 d–j); never with fewer than two. Where nothing
 * spreads there is no tolerance to stay below: figures that are all the same stand still.
 */
export function settling(
	batches: readonly DrawFigures[],
	sd: number,
	digits: number,
): Pick<Settled, 'tolerance' | 'errors' | 'settled'> {
	const errorOf = (figure: keyof DrawFigures): number => {
		const moments = new Moments();
		for (const batch of batches) moments.add(batch[figure]);
		return moments.sd / Math.sqrt(moments.count);
	};
	const errors = { mean: errorOf('mean'), sd: errorOf('sd'), low: errorOf('low'), high: errorOf('high') };
	const tolerance = numericalTolerance(sd, digits);
	return { tolerance, errors, settled: Object.values(errors).every((error) => error === 0 || 2 * error < tolerance) };
}

/** δ = ½·10ˡ where u is written c·10ˡ with c a whole number of `digits` digits (7.9.2); 0 for u = 0. */
export function numericalTolerance(u: number, digits: number): number {
	checkWhole(digits, 'digits', 1);
	if (u === 0) return 0;
	const exponent = Number(u.toExponential(digits - 1).split('e')[1]);
	return Number(`5e${exponent - digits}`);
}

/** Figures of values in any order. */
export function drawFigures(values: Float64Array, probability: number, kind: 'symmetric' | 'shortest'): DrawFigures {
	const moments = new Moments();
	for (const value of values) moments.add(value);
	const interval = coverageInterval(values.slice().sort(), probability, kind);
	return { mean: moments.mean, sd: moments.sd, low: interval?.low ?? Number.NaN, high: interval?.high ?? Number.NaN };
}
