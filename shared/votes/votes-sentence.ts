import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { chancePerHour, count, degrees, leastFigure, percent } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import { type Filter, filterWords, isSameFilter } from './cell.ts';
import { latest } from './finalists.ts';
import type { CellFigures, Finalist, VotesResult } from './votes-result.ts';

type Answered = Omit<VotesResult, 'sentence'>;

/** What the best filter is worth for each choice: in wrong crossings, in noise, in resistor grades, and what it costs in delay. */
export function votesSentence(result: Answered): string {
	const { asked, finished } = result.provenance.units;
	if (finished === 0) return `None of the ${count(asked)} drives was finished: nothing is shown.`;
	return choiceNames.map((choice) => choiceSentence(result, choice)).join(' ');
}

function choiceSentence(result: Answered, choice: ChoiceName): string {
	const { own, choices, judged } = result;
	const { cells, finalists } = choices[choice];
	const name = `With ${choiceWords[choice]} sensing`;
	const atNoise = cells.filter(({ sigma }) => sigma === own.sigma);
	const at = (filter: Filter): CellFigures | undefined => atNoise.find((cell) => isSameFilter(cell, filter));
	const best = finalists.find(({ reasons }) => reasons.includes('most drives pass'));
	const [stated, better] = [at(own), best && at(best)];
	if (!best || !stated || !better) return `${name} no drive was finished.`;
	const figures = ({ passing, crossingsPerHour }: CellFigures): string =>
		`${percent(passing / judged)} of drives keep the limits (${chancePerHour(crossingsPerHour.all)} wrong crossings an hour)`;
	const noise = `at ${quantity(own.sigma, 'V')} of noise`;
	const delay = (of: CellFigures, against: CellFigures): string =>
		`accepts ${degrees(Math.abs(latest(of) - latest(against)))} ${latest(of) < latest(against) ? 'earlier' : 'later'}`;
	if (isSameFilter(best, own)) {
		const single = at({ votes: 1, window: 1 });
		const against =
			single && !isSameFilter(own, single)
				? `; with single readings ${figures(single)}, and it ${delay(stated, single)} than they do`
				: '';
		return `${name} no filter tried is better than the ${filterWords(own)} stated: ${noise} ${figures(stated)}${against}.`;
	}
	if (stated.crossingsPerHour.all <= leastFigure && better.passing === stated.passing) {
		return `${name} more votes are worth nothing ${noise}: with the ${filterWords(own)} stated ${figures(stated)}, and with ${filterWords(best)} no fewer do, which ${delay(better, stated)}${confirmedWords(best)}.`;
	}
	return `${name} ${filterWords(best)} is best ${noise}: ${figures(better)}, against ${figures(stated)} with the ${filterWords(own)} stated. That is worth ${worthWords(result, choice, stated, better)}; it ${delay(better, stated)}${confirmedWords(best)}.`;
}

/** What does as well with the filter stated: less noise, or better resistors. */
function worthWords(
	{ own, choices, tighter, judged }: Answered,
	choice: ChoiceName,
	stated: CellFigures,
	better: CellFigures,
): string {
	const { equalNoise } = choices[choice];
	const noise =
		equalNoise !== null
			? `noise of ${quantity(equalNoise, 'V', 2)} in place of ${quantity(own.sigma, 'V')} by wrong crossings`
			: better.crossingsPerHour.all < stated.crossingsPerHour.all
				? 'noise of less than an eighth by wrong crossings'
				: 'nothing by wrong crossings';
	if (tighter === null) return noise;
	const { verdict, crossingsPerHour } = tighter.choices[choice];
	const gained = better.passing - stated.passing;
	const byGrade = verdict.share - stated.passing / judged;
	const worth = byGrade * judged > gained ? 'less than' : byGrade * judged === gained ? 'as much as' : 'more than';
	return `${noise}, and by drives ${worth} one resistor grade (${tighter.words}: ${percent(verdict.share)}, ${chancePerHour(crossingsPerHour.computed ?? Number.NaN)} an hour)`;
}

function confirmedWords({ confirmed }: Finalist): string {
	if (confirmed === null) return ' (not confirmed)';
	const { computed } = confirmed.crossingsPerHour;
	return computed === null
		? ''
		: `. Fresh drives simulated in full with it: ${percent(confirmed.verdict.share)} pass, ${chancePerHour(computed)} wrong crossings an hour`;
}
