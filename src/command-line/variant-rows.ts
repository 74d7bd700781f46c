import { leastEffective } from '../../shared/statistics/effective-number.ts';
import type { VariantChoice } from '../../shared/variants/variant-figures.ts';
import { chancePerHour, degrees, leastFigure, percent, perHour } from '../../shared/words/figures.ts';
import { padEnd, padStart } from './wrap-text.ts';

const widths = { label: 13, share: 6, limits: 13, decision: 10, median: 8, worse: 7, counted: 10, computed: 13 };

/** The head of a table of variants, two lines, 80 columns. */
export const variantHead = (label: string, confidence: string): string[] => [
	cells(['', 'pass', `${confidence} limits`, '', 'median', 'worst', 'wrong/h', 'wrong/h ']),
	cells([label, '%', 'one-sided, %', 'verdict', 'drive', '5 %', 'counted', 'computed ']),
];

/** One variant's figures for one choice. */
export function variantRow(label: string, { verdict, unitError, crossingsPerHour, points }: VariantChoice): string {
	const { counted, computed } = crossingsPerHour;
	return cells([
		label,
		Number.isNaN(verdict.share) ? '–' : bare(percent(verdict.share)),
		`${bare(percent(verdict.low, 'down'))} … ${bare(percent(verdict.high, 'up'))}`,
		verdict.decision,
		errorWords(unitError.median),
		errorWords(unitError.q95),
		Number.isNaN(counted) ? '–' : perHour(counted),
		computedWords(computed, points),
	]);
}

export const variantLegend =
	"Median drive, worst 5 % (1 drive in 20 is above): the angle within which 95 % of a drive's commutations lie. wrong/h: early, late and missed crossings together in an operating hour.";

/** Whether a figure of the table wants the remark below it. */
export const restsOnFew = (points: VariantChoice['points']): boolean =>
	points.some(
		({ computed }) => computed !== null && computed.perHour >= leastFigure && computed.effective < leastEffective,
	);

export const restsOnFewRemark = `* A few extreme drives carry this figure (their weight is that of fewer than ${leastEffective}): take it as an order of magnitude.`;

function computedWords(hourly: number | null, points: VariantChoice['points']): string {
	if (hourly === null || Number.isNaN(hourly)) return '–';
	return chancePerHour(hourly) + (restsOnFew(points) ? '*' : ' ');
}

function cells([label = '', share = '', limits = '', decision = '', ...figures]: readonly string[]): string {
	const [median = '', worse = '', counted = '', computed = ''] = figures;
	return (
		padEnd(label, widths.label) +
		padStart(share, widths.share) +
		padStart(limits, widths.limits) +
		padStart(decision, widths.decision) +
		padStart(median, widths.median) +
		padStart(worse, widths.worse) +
		padStart(counted, widths.counted) +
		padStart(computed, widths.computed)
	).trimEnd();
}

/** The column's head says that these are per cent. */
const bare = (words: string): string => words.replace(/\s%$/, '');

/** "lost": the drive lost lock, worse than any error. */
const errorWords = (error: number): string =>
	error === Number.POSITIVE_INFINITY ? 'lost' : Number.isNaN(error) ? '–' : degrees(error);
