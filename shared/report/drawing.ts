import type { TopLevelSpec } from 'vega-lite';
import type { ChartTheme } from '../charts/theme.ts';

/** Draws a chart as SVG text; the hosts have the library. */
export type DrawChart = (spec: TopLevelSpec) => Promise<string>;

/** Ink on white: the report's colours, in screen and print alike. */
export const reportTheme: ChartTheme = {
	ink: '#141b22',
	quiet: '#4a5561',
	rule: '#cfd6dd',
	paper: '#ffffff',
	choice: {
		halfBus: { line: '#17609f', fill: 'rgba(23,96,159,0.16)' },
		virtualNeutral: { line: '#ad5200', fill: 'url(#hatch)' },
	},
	font: 'Helvetica Neue, Arial, Liberation Sans, sans-serif',
};

/** One for all charts, px: so their words are of one size where a column narrows them. */
const size = { width: 400, height: 225 };

/** A chart at the report's size, without what only a pointer finds. */
export function printed(spec: TopLevelSpec): TopLevelSpec {
	const layered = spec as TopLevelSpec & { readonly layer?: readonly { readonly params?: unknown }[] };
	return {
		...spec,
		...size,
		...(layered.layer && { layer: layered.layer.filter((one) => one.params === undefined) }),
	} as TopLevelSpec;
}
