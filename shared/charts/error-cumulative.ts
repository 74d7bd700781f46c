import type { TopLevelSpec } from 'vega-lite';
import { degrees, percent } from '../words/figures.ts';
import type { ErrorBin, ErrorBins } from './error-bins.ts';
import { errorFrame } from './error-frame.ts';
import { type ChartTheme, choiceMarks } from './theme.ts';

/** Share of commutations with an error up to x, both choices, on the axis of `errorCounts`; @param ghost an earlier result in the same bins */
export function errorCumulative(
	{ bins }: ErrorBins,
	theme: ChartTheme,
	description: string,
	ghost: readonly ErrorBin[] | null = null,
): TopLevelSpec {
	return errorFrame(
		{
			name: 'steps',
			field: 'cumulative',
			points: opened,
			mark: (choice) => ({
				type: 'line',
				color: theme.choice[choice].line,
				strokeWidth: 2,
				strokeDash: choiceMarks[choice].dash,
			}),
			y: {
				scale: { domain: [0, 1] },
				axis: {
					title: 'share up to this error',
					format: '.0%',
					labelExpr: "replace(datum.label, '%', '\u00a0%')",
					values: [0, 0.25, 0.5, 0.75, 1],
					minExtent: 48,
				},
			},
			ghost: 'linear',
			says: {
				place: ({ to }) => `up to ${degrees(to)}`,
				figure: ({ cumulative }) => percent(cumulative),
			},
		},
		bins,
		ghost,
		theme,
		description,
	);
}

/** Right edges with the share up to them, begun at the first left edge. */
function opened(bins: readonly ErrorBin[]) {
	const first = bins[0];
	const points = bins.map(({ choice, to, cumulative }) => ({ choice, edge: to, cumulative }));
	if (!first) return points;
	return [{ choice: first.choice, edge: first.from, cumulative: first.cumulative - first.share }, ...points];
}
