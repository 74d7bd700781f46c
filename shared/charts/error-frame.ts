import type { TopLevelSpec } from 'vega-lite';
import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { choiceWords } from '../words/names.ts';
import type { ErrorBin } from './error-bins.ts';
import { ghostLine, hoverBands, zeroRule } from './layers.ts';
import { type ChartTheme, chartFrame, choiceMarks } from './theme.ts';

/** One way to see the errors; `field` is both the points' and the ghost's. */
interface ErrorSeries<Field extends string> {
	/** The datasets' name. */
	readonly name: string;
	readonly field: Field;
	/** One choice's bins as points of its line. */
	readonly points: (
		bins: readonly ErrorBin[],
	) => readonly ({ readonly edge: number } & Readonly<Record<Field, number>>)[];
	readonly mark: (choice: ChoiceName) => object;
	readonly y: object;
	readonly ghost: 'step-after' | 'linear';
	/** What a band says of both choices' bins; before it, what it says of the place. */
	readonly says: { readonly place: (bin: ErrorBin) => string; readonly figure: (bin: ErrorBin) => string };
}

/**
 * Both choices' commutation-angle errors over one angle axis, so that pictures
 * can be read together: a series a choice, the ideal commutation, an
 * earlier result's outlines behind, and bands that say the figures on hover.
 *
 * @param ghost an earlier result in the same bins
 */
export function errorFrame<Field extends string>(
	{ name, field, points, mark, y, ghost: interpolate, says }: ErrorSeries<Field>,
	bins: readonly ErrorBin[],
	ghost: readonly ErrorBin[] | null,
	theme: ChartTheme,
	description: string,
): TopLevelSpec {
	const series = (all: readonly ErrorBin[]) =>
		choiceNames.flatMap((choice) => points(all.filter((bin) => bin.choice === choice)));
	const lines = (data: string, of: (choice: ChoiceName) => object, axis: object) =>
		choiceNames.map((choice) => ({
			data: { name: data },
			transform: [{ filter: `datum.choice === '${choice}'` }],
			mark: of(choice),
			encoding: {
				x: { field: 'edge', type: 'quantitative' as const },
				y: { field, type: 'quantitative' as const, ...axis },
			},
		}));
	return {
		...chartFrame(theme, description, 230),
		datasets: {
			[name]: series(bins),
			...(ghost && { ghost: series(ghost) }),
			bands: readouts(bins, says),
		},
		layer: [
			...(ghost ? lines('ghost', (choice) => ghostMark(theme, choice, interpolate), { stack: null }) : []),
			...lines(name, mark, y),
			zeroRule(theme, 'x'),
			hoverBands(theme, 'bands'),
		],
		encoding: { x: errorAxis },
	} as TopLevelSpec;
}

/** Thin and grey, with its choice's dashes. */
const ghostMark = (theme: ChartTheme, choice: ChoiceName, interpolate: 'step-after' | 'linear') => ({
	type: 'line',
	interpolate,
	...ghostLine(theme),
	strokeDash: choiceMarks[choice].dash,
});

const errorAxis = {
	type: 'quantitative',
	scale: { zero: false, nice: false },
	axis: {
		title: '← early · error, electrical degrees · late →',
		grid: false,
		tickCount: 9,
		labelExpr: "replace(datum.label, '-', '−') + '°'",
	},
};

/** One band a bin, with what both choices have there in words. */
function readouts(bins: readonly ErrorBin[], { place, figure }: ErrorSeries<string>['says']) {
	const half = bins.length / 2;
	return bins.slice(0, half).map((bin, i) => {
		const both = [bin, bins[half + i]].map((b) => (b ? `${choiceWords[b.choice]} ${figure(b)}` : ''));
		return { from: bin.from, to: bin.to, says: `${place(bin)}: ${both.join(', ')}` };
	});
}
