import type { PerChoice } from '../drive/drive.ts';

/**
 * Colours and type that a chart is drawn in. Any CSS colour will do: the page
 * gives custom properties, so that light, dark and print need no redrawing; a
 * report gives plain colours.
 */
export interface ChartTheme {
	readonly ink: string;
	/** Axis labels and secondary words. */
	readonly quiet: string;
	/** Hairlines. */
	readonly rule: string;
	readonly paper: string;
	readonly choice: PerChoice<{
		readonly line: string;
		/** Area fill; a hatch where the renderer has one. */
		readonly fill: string;
	}>;
	/** One literal family list: text is measured with it. */
	readonly font: string;
}

/** Told apart without colour too: whole line and round mark against dashes and a diamond. */
export const choiceMarks: PerChoice<{ readonly dash: number[]; readonly shape: 'circle' | 'diamond' }> = {
	halfBus: { dash: [1, 0], shape: 'circle' },
	virtualNeutral: { dash: [5, 3], shape: 'diamond' },
};

/** Vega-lite configuration shared by all charts: hairline axes, no frame, no ticks beyond need. */
function chartConfig(theme: ChartTheme) {
	return {
		font: theme.font,
		background: 'transparent',
		view: { stroke: null },
		text: { color: theme.ink, fontSize: 12 },
		axis: {
			domainColor: theme.rule,
			gridColor: theme.rule,
			gridOpacity: 0.7,
			tickColor: theme.rule,
			tickSize: 4,
			labelColor: theme.quiet,
			labelFontSize: 12,
			labelPadding: 5,
			// neighbours that all but touch are thinned out
			labelSeparation: 6,
			titleColor: theme.quiet,
			titleFontSize: 12,
			titleFontWeight: 'normal' as const,
			titlePadding: 8,
		},
	};
}

/** What every chart begins with; its height in px. Drawn to fit where it stands. */
export const chartFrame = (theme: ChartTheme, description: string, height: number) => ({
	description,
	config: chartConfig(theme),
	width: 640,
	height,
	autosize: { type: 'fit' as const, contains: 'padding' as const },
});
