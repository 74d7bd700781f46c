import { formatRelative } from '../parameters/format-quantity.ts';
import { nearestPreferred, type Series } from '../parts/preferred-series.ts';
import { usualSeries } from '../parts/usual-series.ts';

/** A grade that resistors can be bought in. */
export interface Grade {
	/** As it is printed: "1 %", "5 % E96", "array 1 %/0.1 %". */
	readonly name: string;
	/** Deviation common to all resistors of one value, ± a fraction: the absolute tolerance of an array, 0 for loose resistors. */
	readonly lot: number;
	/** Deviation of each resistor, ± a fraction: the ratio tolerance of an array, the tolerance of a loose resistor. */
	readonly mismatch: number;
	/** Series whose values are on sale in this grade; nominal values are the nearest of any of them. */
	readonly series: readonly Series[];
	/** Of one resistor, in whatever unit of money was meant; null where none was stated. */
	readonly price: number | null;
}

/** The tolerance that a grade is sold under, and that its usual series follows: an array's absolute one. */
const soldTolerance = ({ lot, mismatch }: Pick<Grade, 'lot' | 'mismatch'>): number => (lot > 0 ? lot : mismatch);

/** A grade with its name. @param series the usual one where none is given */
export function makeGrade(lot: number, mismatch: number, series: readonly Series[] = []): Grade {
	const usual = usualSeries(soldTolerance({ lot, mismatch }));
	const bought = series.length > 0 ? series : [usual];
	const tolerance = lot > 0 ? `array ${formatRelative(lot)}/${formatRelative(mismatch)}` : formatRelative(mismatch);
	const isUsual = bought.length === 1 && bought[0] === usual;
	return { name: isUsual ? tolerance : `${tolerance} ${bought.join('+')}`, lot, mismatch, series: bought, price: null };
}

/** The purchasable value whose ratio to `value` is nearest to one, out of all the grade's series. */
export function nearestOfGrade(value: number, { series }: Pick<Grade, 'series'>): number {
	const distance = (candidate: number): number => Math.max(candidate / value, value / candidate);
	return series
		.map((one) => nearestPreferred(value, one))
		.reduce((best, candidate) => (distance(candidate) < distance(best) ? candidate : best));
}

export const isArray = ({ lot }: Pick<Grade, 'lot'>): boolean => lot > 0;

/**
 * Loose resistors tightest first, then arrays tightest first: by the tolerance
 * that they are sold under, by the deviation within an array, by the fineness of
 * the series. Which of the two kinds is the tighter hangs on the circuit. Known
 * before any draw, as judging in this order needs.
 */
export function tightestFirst(grades: readonly Grade[]): readonly Grade[] {
	const finest = ({ series }: Grade): number => Math.max(...series.map((one) => Number(one.slice(1))));
	return [...grades].sort(
		(a, b) =>
			Number(isArray(a)) - Number(isArray(b)) ||
			soldTolerance(a) - soldTolerance(b) ||
			a.mismatch - b.mismatch ||
			finest(b) - finest(a),
	);
}
