import { restsOnFew, variantCells } from '../../shared/variants/variant-cells.ts';
import type { VariantChoice } from '../../shared/variants/variant-figures.ts';
import { padEnd, padStart } from './wrap-text.ts';

const widths = { label: 13, share: 6, limits: 13, decision: 10, median: 8, worse: 7, counted: 10, computed: 13 };

/** The head of a table of variants, two lines, 80 columns. */
export const variantHead = (label: string, confidence: string): string[] => [
	cells(['', 'pass', `${confidence} limits`, '', 'median', 'worst', 'wrong/h', 'wrong/h ']),
	cells([label, '%', 'one-sided, %', 'verdict', 'drive', '5 %', 'counted', 'computed ']),
];

/** One variant's figures for one choice. */
export function variantRow(label: string, variant: VariantChoice): string {
	const { share, low, high, decision, median, worse, counted, computed } = variantCells(variant);
	const mark = computed === '–' ? '' : restsOnFew(variant.points) ? '*' : ' ';
	return cells([
		label,
		bare(share),
		`${bare(low)} … ${bare(high)}`,
		decision,
		median,
		worse,
		counted,
		`${computed}${mark}`,
	]);
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
