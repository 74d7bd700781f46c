import type { TopLevelSpec } from 'vega-lite';
import { count, degrees, percent, span } from '../words/figures.ts';
import type { ErrorBin, ErrorBins } from './error-bins.ts';
import { errorFrame } from './error-frame.ts';
import { type ChartTheme, choiceMarks } from './theme.ts';

/**
 * Both choices' commutation-angle errors as overlaid counts: half-bus filled
 * with a whole outline, virtual neutral hatched with a dashed one.
 *
 * @param ghost an earlier result in the same bins, drawn as bare outlines behind
 */
export function errorCounts(
	{ bins, step }: ErrorBins,
	theme: ChartTheme,
	description: string,
	ghost: readonly ErrorBin[] | null = null,
): TopLevelSpec {
	return errorFrame(
		{
			name: 'outline',
			field: 'count',
			points: closed,
			mark: (choice) => ({
				type: 'area',
				interpolate: 'step-after',
				fill: theme.choice[choice].fill,
				line: { color: theme.choice[choice].line, strokeWidth: 1.75, strokeDash: choiceMarks[choice].dash },
			}),
			y: {
				stack: null,
				axis: {
					title: `commutations per ${degrees(step)}`,
					format: '~s',
					labelExpr: "datum.value === 0 ? '0' : datum.label",
					tickCount: 4,
					minExtent: 48,
				},
			},
			ghost: 'step-after',
			says: {
				place: ({ from, to }) => span(degrees(from), degrees(to)),
				figure: (bin) => `${count(bin.count)} (${percent(bin.share)})`,
			},
		},
		bins,
		ghost,
		theme,
		description,
	);
}

/** Left edges with their counts, and the last right edge at zero. */
function closed(bins: readonly ErrorBin[]) {
	const last = bins.at(-1);
	const points = bins.map(({ choice, from, count }) => ({ choice, edge: from, count }));
	return last ? [...points, { choice: last.choice, edge: last.to, count: 0 }] : points;
}
