import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { degrees, percent } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import type { ErrorBin, ErrorBins } from './error-bins.ts';
import { errorAxis, ghostLines, hoverBands, zeroRule } from './error-counts.ts';
import { type ChartTheme, chartConfig, choiceMarks } from './theme.ts';

/** Share of commutations with an error up to x, both choices, on the axis of `errorCounts`; @param ghost an earlier result in the same bins */
export function errorCumulative(
	{ bins }: ErrorBins,
	theme: ChartTheme,
	description: string,
	ghost: readonly ErrorBin[] | null = null,
): TopLevelSpec {
	return {
		description,
		config: chartConfig(theme),
		width: 640,
		height: 190,
		autosize: { type: 'fit', contains: 'padding' },
		datasets: {
			steps: choiceNames.flatMap((choice) => opened(bins.filter((bin) => bin.choice === choice))),
			...(ghost && { ghost: choiceNames.flatMap((choice) => opened(ghost.filter((bin) => bin.choice === choice))) }),
			bands: readouts(bins),
		},
		layer: [
			...(ghost ? ghostLines(theme, 'linear', 'cumulative') : []),
			...choiceNames.map((choice) => ({
				data: { name: 'steps' },
				transform: [{ filter: `datum.choice === '${choice}'` }],
				mark: {
					type: 'line' as const,
					color: theme.choice[choice].line,
					strokeWidth: 2,
					strokeDash: choiceMarks[choice].dash,
				},
				encoding: {
					x: { field: 'edge', type: 'quantitative' as const },
					y: {
						field: 'cumulative',
						type: 'quantitative' as const,
						scale: { domain: [0, 1] },
						axis: {
							title: 'share up to this error',
							format: '.0%',
							labelExpr: "replace(datum.label, '%', '\u00a0%')",
							values: [0, 0.25, 0.5, 0.75, 1],
							minExtent: 48,
						},
					},
				},
			})),
			zeroRule(theme),
			hoverBands(theme),
		],
		encoding: { x: errorAxis },
	} as TopLevelSpec;
}

/** Right edges with the share up to them, begun at the first left edge. */
function opened(bins: readonly ErrorBin[]) {
	const first = bins[0];
	const points = bins.map(({ choice, to, cumulative }) => ({ choice, edge: to, cumulative }));
	if (!first) return points;
	return [{ choice: first.choice, edge: first.from, cumulative: first.cumulative - first.share }, ...points];
}

function readouts(bins: readonly ErrorBin[]) {
	const half = bins.length / 2;
	return bins.slice(0, half).map((bin, i) => {
		const says = [bin, bins[half + i]].map((b) => (b ? `${choiceWords[b.choice]} ${percent(b.cumulative)}` : ''));
		return { from: bin.from, to: bin.to, says: `up to ${degrees(bin.to)}: ${says.join(', ')}` };
	});
}
