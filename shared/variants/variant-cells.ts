import { leastEffective } from '../statistics/effective-number.ts';
import { chancePerHour, degrees, leastFigure, percent, perHour } from '../words/figures.ts';
import type { VariantChoice } from './variant-figures.ts';

/** A variant's figures for one choice, in words. */
export interface VariantCells {
	/** Passing share and its one-sided limits. */
	readonly share: string;
	readonly low: string;
	readonly high: string;
	readonly decision: string;
	/** Angle that 95 % of a drive's commutations keep within: the median drive, and the one that 1 in 20 exceeds. */
	readonly median: string;
	readonly worse: string;
	/** Early, late and missed crossings an hour. */
	readonly counted: string;
	readonly computed: string;
}

export function variantCells({ verdict, unitError, crossingsPerHour }: VariantChoice): VariantCells {
	const { counted, computed } = crossingsPerHour;
	return {
		share: Number.isNaN(verdict.share) ? '–' : percent(verdict.share),
		low: percent(verdict.low, 'down'),
		high: percent(verdict.high, 'up'),
		decision: verdict.decision,
		median: errorWords(unitError.median),
		worse: errorWords(unitError.q95),
		counted: Number.isNaN(counted) ? '–' : perHour(counted),
		computed: computed === null || Number.isNaN(computed) ? '–' : chancePerHour(computed),
	};
}

export const variantLegend =
	"Median drive, worst 5 % (1 drive in 20 is above): the angle within which 95 % of a drive's commutations lie. wrong/h: early, late and missed crossings together in an operating hour.";

/** Whether a figure of the table wants the remark below it. */
export const restsOnFew = (points: VariantChoice['points']): boolean =>
	points.some(
		({ computed }) => computed !== null && computed.perHour >= leastFigure && computed.effective < leastEffective,
	);

export const restsOnFewRemark = `* The weight of fewer than ${leastEffective} drives carries this figure: take it as an order of magnitude.`;

/** "lost": the drive lost lock, worse than any error. */
const errorWords = (error: number): string =>
	error === Number.POSITIVE_INFINITY ? 'lost' : Number.isNaN(error) ? '–' : degrees(error);
