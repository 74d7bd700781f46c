import type { ChartTheme } from './theme.ts';

// Layers that several charts have.

/** A line across the chart at zero of one of its axes. */
export const zeroRule = (theme: ChartTheme, axis: 'x' | 'y') => ({
	data: { values: [{ zero: 0 }] },
	mark: { type: 'rule' as const, color: theme.ink, strokeWidth: 1, opacity: 0.55 },
	encoding: { [axis]: { field: 'zero', type: 'quantitative' as const } },
});

/** How an earlier result's line is drawn: thin and grey. */
export const ghostLine = (theme: ChartTheme) => ({ color: theme.quiet, strokeWidth: 1.25, opacity: 0.85 });

/** Makes an invisible mark that carries figures faintly seen under the pointer; `field` tells the marks apart. */
export const underPointer = (field: string) => ({
	params: [
		{ name: 'under', select: { type: 'point' as const, on: 'pointerover', clear: 'pointerout', fields: [field] } },
	],
	opacity: { condition: { param: 'under', empty: false, value: 0.09 }, value: 0 },
});

/** Invisible full-height bands `from` … `to` of a dataset that say the figures on hover. */
export const hoverBands = (theme: ChartTheme, dataset: string) => {
	const { params, opacity } = underPointer('from');
	return {
		data: { name: dataset },
		params,
		mark: { type: 'rect' as const, fill: theme.ink, tooltip: { content: 'data' as const } },
		encoding: {
			x: { field: 'from', type: 'quantitative' as const },
			x2: { field: 'to' },
			opacity,
			tooltip: { field: 'says' },
		},
	};
};
