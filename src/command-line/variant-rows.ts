import { leastEffective } from '../../shared/statistics/effective-number.ts';
import type { VariantChoice } from '../../shared/variants/variant-figures.ts';
import { degrees, perHour, power } from '../../shared/words/figures.ts';
import { shareWords } from '../../shared/words/share.ts';
import { padEnd, padStart } from './wrap-text.ts';

const widths = { label: 13, share: 6, limits: 14, decision: 10, error: 8, counted: 8, computed: 13 };

/** Crossings an hour below which noise that is Gaussian to so many sigma is an assumption, not a figure. */
const negligible = 1e-12;

/** The head of a table of variants, two lines, 80 columns. */
export const variantHead = (label: string, confidence: string): string[] => [
	cells(['', 'pass', `${confidence} limits`, '', 'median', '1 in 20', 'wrong/h', 'wrong/h ']),
	cells([label, '%', 'one-sided, %', 'verdict', 'drive', 'above', 'counted', 'computed ']),
];

/** One variant's figures for one choice. */
export function variantRow(label: string, { verdict, unitError, crossingsPerHour, points }: VariantChoice): string {
	const { counted, computed } = crossingsPerHour;
	return cells([
		label,
		Number.isNaN(verdict.share) ? '–' : bare(shareWords(verdict.share)),
		`${bare(shareWords(verdict.low, 'down'))} … ${bare(shareWords(verdict.high, 'up'))}`,
		verdict.decision,
		errorWords(unitError.median),
		errorWords(unitError.q95),
		Number.isNaN(counted) ? '–' : compact(counted),
		computedWords(computed, points),
	]);
}

export const variantLegend =
	"Median drive, 1 in 20 above: the angle within which 95 % of a drive's commutations lie. wrong/h: early, late and missed crossings together in an operating hour.";

/** Whether a figure of the table wants the remark below it. */
export const restsOnFew = (points: VariantChoice['points']): boolean =>
	points.some(
		({ computed }) => computed !== null && computed.perHour >= negligible && computed.effective < leastEffective,
	);

export const restsOnFewRemark = `* A few extreme drives carry this figure (their weight is that of fewer than ${leastEffective}): take it as an order of magnitude.`;

function computedWords(hourly: number | null, points: VariantChoice['points']): string {
	if (hourly === null || Number.isNaN(hourly)) return '–';
	if (hourly > 0 && hourly < negligible) return `<${compact(negligible).replace('1.0·', '')} `;
	return compact(hourly) + (restsOnFew(points) ? '*' : ' ');
}

function cells([label = '', share = '', limits = '', decision = '', ...figures]: readonly string[]): string {
	const [median = '', worse = '', counted = '', computed = ''] = figures;
	return (
		padEnd(label, widths.label) +
		padStart(share, widths.share) +
		padStart(limits, widths.limits) +
		padStart(decision, widths.decision) +
		padStart(median, widths.error) +
		padStart(worse, widths.error) +
		padStart(counted, widths.counted) +
		padStart(computed, widths.computed)
	).trimEnd();
}

/** The column's head says that these are per cent. */
const bare = (words: string): string => words.replace(/\s%$/, '');

/** "lost": the drive lost lock, worse than any error. */
const errorWords = (error: number): string =>
	error === Number.POSITIVE_INFINITY ? 'lost' : Number.isNaN(error) ? '–' : degrees(error);

/** Powers of ten without blanks, and also for what is too long, to fit the column: "3.2·10⁻¹²", "1.9·10⁶". */
const compact = (value: number): string => (value >= 99_500 ? power(value) : perHour(value)).replace(/\s×\s/, '·');
