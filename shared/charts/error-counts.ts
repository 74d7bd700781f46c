import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { count, degrees, percent, span } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import type { ErrorBin, ErrorBins } from './error-bins.ts';
import { type ChartTheme, chartConfig, choiceMarks } from './theme.ts';

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
	return {
		description,
		config: chartConfig(theme),
		width: 640,
		height: 230,
		autosize: { type: 'fit', contains: 'padding' },
		datasets: {
			outline: choiceNames.flatMap((choice) => closed(bins.filter((bin) => bin.choice === choice))),
			...(ghost && { ghost: choiceNames.flatMap((choice) => closed(ghost.filter((bin) => bin.choice === choice))) }),
			bands: readouts(bins),
		},
		layer: [
			...(ghost ? ghostLines(theme, 'step-after', 'count') : []),
			...choiceNames.map((choice) => ({
				data: { name: 'outline' },
				transform: [{ filter: `datum.choice === '${choice}'` }],
				mark: {
					type: 'area' as const,
					interpolate: 'step-after' as const,
					fill: theme.choice[choice].fill,
					line: { color: theme.choice[choice].line, strokeWidth: 1.75, strokeDash: choiceMarks[choice].dash },
				},
				encoding: {
					x: { field: 'edge', type: 'quantitative' as const },
					y: {
						field: 'count',
						type: 'quantitative' as const,
						stack: null,
						axis: { title: `commutations per ${degrees(step)}`, format: '~s', tickCount: 4, minExtent: 48 },
					},
				},
			})),
			zeroRule(theme),
			hoverBands(theme),
		],
		encoding: { x: errorAxis },
	} as TopLevelSpec;
}

/** An earlier result's outlines: thin and grey, each with its choice's dashes. */
export const ghostLines = (theme: ChartTheme, interpolate: 'step-after' | 'linear', field: 'count' | 'cumulative') =>
	choiceNames.map((choice) => ({
		data: { name: 'ghost' },
		transform: [{ filter: `datum.choice === '${choice}'` }],
		mark: {
			type: 'line' as const,
			interpolate,
			color: theme.quiet,
			strokeWidth: 1.25,
			strokeDash: choiceMarks[choice].dash,
			opacity: 0.85,
		},
		encoding: {
			x: { field: 'edge', type: 'quantitative' as const },
			y: { field, type: 'quantitative' as const, stack: null },
		},
	}));

/** The same angle axis under counts and cumulative, so that they can be read one below the other. */
export const errorAxis = {
	type: 'quantitative' as const,
	scale: { zero: false, nice: false },
	axis: {
		title: '← early · error, electrical degrees · late →',
		grid: false,
		tickCount: 9,
		labelExpr: "replace(datum.label, '-', '−') + '°'",
	},
};

/** Ideal commutation. */
export const zeroRule = (theme: ChartTheme) => ({
	data: { values: [{ zero: 0 }] },
	mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 1, opacity: 0.55 },
	encoding: { x: { field: 'zero', type: 'quantitative' as const } },
});

/** Invisible full-height bands that carry the figures read out on hover. */
export const hoverBands = (theme: ChartTheme) => ({
	data: { name: 'bands' },
	params: [
		{ name: 'under', select: { type: 'point' as const, on: 'pointerover', clear: 'pointerout', fields: ['from'] } },
	],
	mark: { type: 'rect' as const, fill: theme.ink, tooltip: { content: 'data' as const } },
	encoding: {
		x: { field: 'from', type: 'quantitative' as const },
		x2: { field: 'to' },
		opacity: { condition: { param: 'under', empty: false, value: 0.09 }, value: 0 },
		tooltip: { field: 'says' },
	},
});

/** Left edges with their counts, and the last right edge at zero. */
function closed(bins: readonly ErrorBin[]) {
	const last = bins.at(-1);
	const points = bins.map(({ choice, from, count }) => ({ choice, edge: from, count }));
	return last ? [...points, { choice: last.choice, edge: last.to, count: 0 }] : points;
}

/** One band a bin, with what both choices have there in words. */
function readouts(bins: readonly ErrorBin[]) {
	const half = bins.length / 2;
	return bins.slice(0, half).map((bin, i) => {
		const says = [bin, bins[half + i]].map((b) =>
			b ? `${choiceWords[b.choice]} ${count(b.count)} (${percent(b.share)})` : '',
		);
		return { from: bin.from, to: bin.to, says: `${span(degrees(bin.from), degrees(bin.to))}: ${says.join(', ')}` };
	});
}
