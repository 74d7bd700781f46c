import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { shareDifference } from '../statistics/share-difference.ts';
import { chancePerHour, count, degrees, percent } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import { type Filter, filterWords, isSameFilter } from './cell.ts';
import { latest, rateOf } from './finalists.ts';
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
	// without a measured sector at a point there is no rate of any filter, and none passes with another one
	if (Number.isNaN(stated.crossingsPerHour.all))
		return `${name} no drive keeps lock at every point: nothing can be told of votes.`;
	const figures = ({ passing, crossingsPerHour }: CellFigures): string =>
		`${percent(passing / judged)} of drives keep the limits (${chancePerHour(crossingsPerHour.all)} wrong crossings an hour)`;
	const shortly = ({ passing, crossingsPerHour }: CellFigures): string =>
		`${percent(passing / judged)} (${chancePerHour(crossingsPerHour.all)})`;
	const noise = `at ${quantity(own.sigma, 'V')} of noise`;
	const delay = (of: CellFigures, against: CellFigures): string =>
		`accepts ${degrees(Math.abs(latest(of) - latest(against)))} ${latest(of) < latest(against) ? 'earlier' : 'later'}`;
	const { base } = choices[choice];
	const against = base && at(base);
	const isOwn = isSameFilter(best, own);
	if (!base || !against)
		return result.filters.length > 1
			? `${name} no filter that was tried does better than the ${filterWords(own)} stated: ${noise} ${figures(stated)}${confirmedWords(best)}.`
			: `${name} there is no other filter to hold the ${filterWords(own)} against: ${noise} ${figures(stated)}.`;
	const what = isSameFilter(base, own) ? `the ${filterWords(own)} stated` : 'single readings';
	const rate = rateOf(result.requirement.crossingsPerHour);
	if (rate(better) === rate(against) && better.passing === against.passing) {
		return `${name} votes are worth nothing ${noise}: with ${what} ${figures(against)}, and with ${filterWords(best)} no fewer do, which ${delay(better, against)}${confirmedWords(best)}.`;
	}
	return `${name} ${filterWords(best)}${isOwn ? ', as stated,' : ''} is best ${noise}: ${figures(better)}, against ${shortly(against)} with ${what}. That is worth ${worthWords(result, choice, against, better)}; it ${delay(better, against)}${confirmedWords(best)}.`;
}

/** What does as well with the filter that it is held against: less noise, or better resistors. */
function worthWords(
	{ own, choices, tighter, judged }: Answered,
	choice: ChoiceName,
	against: CellFigures,
	better: CellFigures,
): string {
	const { equalNoise } = choices[choice];
	const beyondSteps =
		better.crossingsPerHour.all < against.crossingsPerHour.all ? 'more than noise of an eighth' : 'no lower noise';
	const noise = `${equalNoise === null ? beyondSteps : equalWords(equalNoise, own.sigma)} by wrong crossings`;
	const graded = tighter?.cells[choice].find((cell) => cell.sigma === own.sigma && isSameFilter(cell, against));
	if (!tighter || !graded || tighter.judged === 0) return noise;
	// what so few drives leave open is not told apart
	const byGrade = shareDifference(graded.passing, tighter.judged, better.passing, judged);
	const worth = byGrade.low > 0 ? 'less than' : byGrade.high < 0 ? 'more than' : 'not shown to differ from';
	return `${noise}, and by drives ${worth} one resistor grade (${tighter.words} leaves ${percent(graded.passing / tighter.judged)} within the limits)`;
}

/** "noise of 3.1 mV in place of 8 mV". */
function equalWords(equal: number, own: number): string {
	const words = quantity(equal, 'V', 2);
	return words === quantity(own, 'V', 2) ? 'no lower noise' : `noise of ${words} in place of ${quantity(own, 'V')}`;
}

function confirmedWords({ confirmed }: Finalist): string {
	if (confirmed === null) return ' (not confirmed)';
	const { computed } = confirmed.crossingsPerHour;
	// none where no drive keeps lock at some point
	const rate =
		computed === null || Number.isNaN(computed) ? '' : `, ${chancePerHour(computed)} wrong crossings an hour`;
	return `. Fresh drives simulated in full with it: ${percent(confirmed.verdict.share)} pass${rate}`;
}
