import type { TopLevelSpec } from 'vega-lite';
import { choiceNames } from '../drive/drive.ts';
import { computedWords } from '../study/computed-rows.ts';
import type { PointResult } from '../study/result.ts';
import { count, degrees, drives, power, signedDegrees, span } from '../words/figures.ts';
import { choiceWords, eventKinds, eventWords } from '../words/names.ts';
import { rateWords } from '../words/rate.ts';
import { type DifferenceBins, differenceBins } from './difference-bins.ts';
import type { ErrorBins } from './error-bins.ts';
import { errorCounts } from './error-counts.ts';
import { errorCumulative } from './error-cumulative.ts';
import { ghostBins } from './ghost-bins.ts';
import { leftOutWords, pairedDifferences } from './paired-differences.ts';
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
	/** Null without a drive that kept lock with both choices, and in results of before version 3. */
	readonly differences: (Picture & { readonly bins: DifferenceBins; readonly leftOut: string }) | null;
	/** What the open marks of the rates are, in words. */
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
	ghost: Pick<PointResult, 'choices' | 'paired'> | null = null,
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
		differences: differencesOf(point.paired, ghost?.paired.differences, theme),
		openMarks: `An open mark on a dotted line: none seen. It bounds the share of drives affected, not the rate per sector.${hasTinyChance(choices) ? ` An open mark at the left edge: a computed chance below ${power(leastDrawn)}.` : ''}`,
		sectors: picture(
			(d) => sectorMeans(choices, theme, d, ghost?.choices),
			`Mean angle error of the six sectors. ${perChoice((choice) => choices[choice].sectorMeans.map(signedDegrees).join(', '))}.`,
		),
		outside: bins ? outsideWords(bins) : '',
	};
}

function differencesOf(
	paired: PointResult['paired'],
	ghost: PointResult['paired']['differences'],
	theme: ChartTheme,
): Pictures['differences'] {
	const { differences, smaller, units, medianDifference } = paired;
	const bins = differenceBins(differences, ghost);
	if (!bins || !differences) return null;
	const each = choiceNames.map((choice) => `${choiceWords[choice]} in ${count(smaller[choice])}`).join(', ');
	const middle =
		medianDifference === null ? '' : ` Median of half-bus less virtual neutral ${signedDegrees(medianDifference)}.`;
	const describes = `Drives counted by how much the two choices differ on them. The smaller error has ${each} of ${drives(units)}.${middle}`;
	return {
		spec: pairedDifferences(bins, paired, theme, describes, ghost),
		describes,
		bins,
		leftOut: leftOutWords(bins, differences.lost),
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
