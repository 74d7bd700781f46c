import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { computedWords } from '../study/computed-rows.ts';
import type { PointResult } from '../study/result.ts';
import { count, degrees, power, signedDegrees, span } from '../words/figures.ts';
import { choiceWords, eventKinds, eventWords } from '../words/names.ts';
import { rateWords } from '../words/rate.ts';
import type { ErrorBins } from './error-bins.ts';
import { errorCounts } from './error-counts.ts';
import { errorCumulative } from './error-cumulative.ts';
import { ghostBins } from './ghost-bins.ts';
import { hasTinyChance, leastDrawn, rateIntervals } from './rate-intervals.ts';
import { sectorMeans } from './sector-means.ts';
import type { ChartTheme } from './theme.ts';

/** A chart and what it shows in words, for those who do not see it. */
export interface Picture {
	readonly spec: TopLevelSpec;
	readonly describes: string;
}

export interface Pictures {
	readonly counts: Picture | null;
	readonly cumulative: Picture | null;
	readonly rates: Picture;
	/** What its open marks are, in words. */
	readonly openMarks: string;
	readonly sectors: Picture;
	/** What lies outside the two error pictures, in words; '' for nothing. */
	readonly outside: string;
}

/** All pictures of one operating point. */
export function drawPictures(
	point: PointResult,
	bins: ErrorBins | null,
	theme: ChartTheme,
	/** The baseline's figures, drawn behind. */
	ghost: Pick<PointResult, 'choices'> | null = null,
): Pictures {
	const { choices } = point;
	const perChoice = (read: (choice: (typeof choiceNames)[number]) => string): string =>
		choiceNames.map((choice) => `${choiceWords[choice]}: ${read(choice)}`).join('. ');
	const spread = perChoice((choice) => {
		const { mean, sd, quantiles } = choices[choice].angleError;
		const middle = span(degrees(quantiles['0.025'] ?? Number.NaN), degrees(quantiles['0.975'] ?? Number.NaN));
		return `mean ${signedDegrees(mean)}, standard deviation ${degrees(sd)}, 95 % between ${middle}`;
	});
	const picture = (draw: (description: string) => TopLevelSpec, describes: string): Picture => ({
		spec: draw(describes),
		describes,
	});
	const before = ghost && bins && ghostBins(bins, ghost.choices);
	return {
		counts: bins && picture((d) => errorCounts(bins, theme, d, before), `Commutation-angle errors counted. ${spread}.`),
		cumulative:
			bins &&
			picture(
				(d) => errorCumulative(bins, theme, d, before),
				`Share of commutations with an error up to each angle. ${spread}.`,
			),
		rates: picture(
			(d) => rateIntervals(choices, theme, d, ghost?.choices),
			`Rates per measured sector. ${perChoice((choice) =>
				eventKinds
					.flatMap((kind) => {
						const { rates, computed } = choices[choice];
						const counted = `${eventWords[kind]} ${rateWords(rates[kind])}`;
						return computed ? [counted, `computed ${computedWords(computed[kind])}`] : [counted];
					})
					.join('; '),
			)}.`,
		),
		openMarks: `An open mark on a dotted line: none seen. It bounds the share of drives affected, not the rate per sector.${hasTinyChance(choices) ? ` An open mark at the left edge: a computed chance below ${power(leastDrawn)}.` : ''}`,
		sectors: picture(
			(d) => sectorMeans(choices, theme, d, ghost?.choices),
			`Mean angle error of the six sectors. ${perChoice((choice) => choices[choice].sectorMeans.map(signedDegrees).join(', '))}.`,
		),
		outside: bins ? outsideWords(bins) : '',
	};
}

function outsideWords({ outside, total, open }: ErrorBins): string {
	const words: string[] = [];
	const some = choiceNames.filter((choice) => outside[choice] > 0);
	if (some.length > 0) {
		const each = some.map(
			(choice) => `${count(outside[choice])} of ${count(total[choice])} commutations with ${choiceWords[choice]}`,
		);
		words.push(`Beyond the edges of these pictures: ${each.join(' and ')}.`);
	}
	const edges = [open.first && '−60°', open.last && '+60°'].filter(Boolean).join(' and ');
	if (edges) words.push(`What is drawn at ${edges} lies there or beyond.`);
	return words.length > 0 ? `${words.join(' ')} The largest errors are in the table.` : '';
}
