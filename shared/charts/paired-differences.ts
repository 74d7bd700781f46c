import type { TopLevelSpec } from 'vega-lite';
import type { ChoiceName } from '../drive/drive.ts';
import type { PairedFigures } from '../study/result.ts';
import { count, degrees, drives, percent, span } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { type DifferenceBin, type DifferenceBins, differenceGhost } from './difference-bins.ts';
import { ghostLine, hoverBands, zeroRule } from './layers.ts';
import { type ChartTheme, chartFrame, choiceMarks } from './theme.ts';

/**
 * Drives by how much the two choices differ on them: each bar in the colour and
 * fill of the choice with the smaller error there, the median with its interval
 * above.
 *
 * @param ghost an earlier result, drawn as a bare outline behind
 */
export function pairedDifferences(
	{ bins, step, total }: DifferenceBins,
	{ medianDifference, interval }: Pick<PairedFigures, 'medianDifference' | 'interval'>,
	theme: ChartTheme,
	description: string,
	ghost: PairedFigures['differences'],
): TopLevelSpec {
	const rows = bins.map((bin) => ({ ...bin, smaller: smallerIn(bin), says: says(bin) }));
	const before = ghost && differenceGhost({ bins, total }, ghost);
	const [first, last] = [bins[0]?.from ?? 0, bins.at(-1)?.to ?? 0];
	const within = (value: number): number => Math.min(Math.max(value, first), last);
	const isDrawn = medianDifference !== null && medianDifference >= first && medianDifference <= last;
	const median = isDrawn
		? [
				{
					at: medianDifference,
					low: within(interval?.[0] ?? medianDifference),
					high: within(interval?.[1] ?? medianDifference),
				},
			]
		: [];
	const x = (field: string) => ({ field, type: 'quantitative' as const, ...axis });
	const y = { field: 'count', type: 'quantitative' as const, stack: null };
	return {
		...chartFrame(theme, description, 210),
		datasets: {
			differences: rows,
			...(before && before.length > 0 && { ghost: closed(before) }),
			median,
		},
		layer: [
			...(['halfBus', 'virtualNeutral'] as const).map((choice) => ({
				data: { name: 'differences' },
				transform: [{ filter: `datum.smaller === '${choice}'` }],
				mark: {
					type: 'rect' as const,
					fill: theme.choice[choice].fill,
					stroke: theme.choice[choice].line,
					strokeWidth: 1.25,
					strokeDash: choiceMarks[choice].dash,
				},
				encoding: {
					x: x('from'),
					x2: { field: 'to' },
					y2: { datum: 0 },
					y: {
						...y,
						axis: {
							title: `drives per ${degrees(step)}`,
							format: '~s',
							labelExpr: "datum.value === 0 ? '0' : datum.label",
							tickCount: 4,
							tickMinStep: 1,
							minExtent: 48,
						},
					},
				},
			})),
			...(before && before.length > 0
				? [
						{
							data: { name: 'ghost' },
							mark: {
								type: 'line' as const,
								interpolate: 'step-after' as const,
								...ghostLine(theme),
							},
							encoding: { x: x('from'), y },
						},
					]
				: []),
			zeroRule(theme, 'x'),
			{
				data: { name: 'median' },
				mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 5, opacity: 0.85 },
				encoding: { x: x('low'), x2: { field: 'high' }, y: { value: 4 } },
			},
			{
				data: { name: 'median' },
				mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 1.5 },
				encoding: { x: x('at'), y: { value: 0 }, y2: { value: 'height' } },
			},
			hoverBands(theme, 'differences'),
		],
	} as TopLevelSpec;
}

const axis = {
	scale: { zero: false, nice: false },
	axis: {
		title: ['← half-bus errs less · virtual neutral errs less →', 'difference, electrical degrees'],
		grid: false,
		tickCount: 9,
		labelExpr: "replace(datum.label, '-', '−') + '°'",
	},
};

/** The choice that errs less on a bin's drives. */
export const smallerIn = ({ to }: DifferenceBin): ChoiceName => (to <= 0 ? 'halfBus' : 'virtualNeutral');

const says = (bin: DifferenceBin): string =>
	`${choiceWords[smallerIn(bin)]} errs ${sizeWords(bin)} less: ${drives(bin.count)} (${percent(bin.share)})`;

/** The bin's size, the smaller figure first. */
export function sizeWords({ from, to }: DifferenceBin): string {
	const [least, most] = to <= 0 ? [-to, -from] : [from, to];
	return span(degrees(least), degrees(most));
}

/** Left edges with their counts, and the last right edge at zero. */
function closed(bins: readonly DifferenceBin[]) {
	const last = bins.at(-1);
	const points = bins.map(({ from, count }) => ({ from, count }));
	return last ? [...points, { from: last.to, count: 0 }] : points;
}

/** What the picture leaves out, in words; '' for nothing. */
export function leftOutWords(
	{ outside, total }: DifferenceBins,
	lost: NonNullable<PairedFigures['differences']>['lost'],
) {
	const beyond = outside.below + outside.above;
	const lostWith = (units: number, choice: string) => units > 0 && `${drives(units)} that lost lock with ${choice}`;
	const words = [
		beyond > 0 && `${count(beyond)} of ${drives(total)}, beyond its edges`,
		lostWith(lost.halfBus, `${choiceWords.halfBus} alone`),
		lostWith(lost.virtualNeutral, `${choiceWords.virtualNeutral} alone`),
		lostWith(lost.both, 'both'),
	].filter((part) => part !== false);
	return words.length > 0 ? `Not in the picture: ${words.join('; ')}.` : '';
}
