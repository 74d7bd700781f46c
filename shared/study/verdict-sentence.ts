import type { ChoiceName } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count, drives, enough, percent, power } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import type { ChoiceVerdict } from './result.ts';
import type { Requirement } from './unit-passes.ts';

/** What must hold, in one sentence. */
export function requirementSentence(requirement: Requirement): string {
	const { angleLimit, quantile, crossingsPerHour, share, confidence } = requirement;
	const hourly = crossingsPerHour === 0 ? 'no' : `at most ${power(crossingsPerHour)}`;
	return (
		`Required, with ${levelWords(confidence)} confidence, of ${levelWords(share)} of drives at every operating point: ` +
		`${levelWords(quantile)} of a drive's commutations within ${quantity(angleLimit, '°')}, ` +
		`${hourly} early, late and missed crossings an hour, lock kept and torque reached.`
	);
}

/** One choice's verdict with the figures it rests on. */
export function verdictSentence(
	choice: ChoiceName,
	{ share: required, confidence }: Requirement,
	{
		decision,
		passed,
		failed,
		notSimulated,
		low,
		high,
		moreUnits,
		successRun,
		...judged
	}: Omit<ChoiceVerdict, 'sentence'>,
): string {
	const units = passed + failed + notSimulated;
	const name = choiceWords[choice];
	if (units === 0) return `${capital(name)}: undecided, no drive was judged.`;
	const confident = `${levelWords(confidence)} confidence`;
	const counted = `${count(passed)} of ${drives(units)} ${units === 1 ? 'passes' : 'pass'}`;
	const kept = notSimulated > 0 ? ` ${count(notSimulated)} could not be simulated and count against it.` : '';
	const looked = judged.limits === 'confidence sequence' ? ', however often it was looked at' : '';
	if (decision === 'holds') {
		const run =
			successRun !== null
				? ` None failed: a run of ${drives(units)} without a failure shows ${percent(successRun, 'down')}.`
				: '';
		return `${capital(name)} holds: ${counted}, which shows at least ${percent(low, 'down')} (${confident}${looked}).${run}${kept}`;
	}
	if (decision === 'fails') {
		return `${capital(name)} fails: ${counted}, which leaves at most ${percent(high, 'up')} where ${levelWords(required)} are required (${confident}${looked}).${kept}`;
	}
	const between = `between ${percent(low, 'down')} and ${percent(high, 'up')} (each limit with ${confident}${looked})`;
	const run =
		successRun !== null
			? ` None failed: a run of ${drives(units)} without a failure shows ${percent(successRun, 'down')} and no more.`
			: '';
	return `${capital(name)} is undecided: ${counted}, which leaves the share ${between} where ${levelWords(required)} are required.${run} ${moreWords(units, moreUnits, judged.limits)}${kept}`;
}

/** How many drives would decide it, and how they are to be run. */
function moreWords(units: number, moreUnits: number | null, limits: ChoiceVerdict['limits']): string {
	if (moreUnits === null) return 'So near the limit no number of drives within reach would decide it.';
	if (limits === 'confidence sequence')
		return `About ${enough(moreUnits)} more ${moreUnits === 1 ? 'drive' : 'drives'} would decide it, at the share seen.`;
	// with the share on the limit, 17 % of 2,000 studies so gone on with to 20,000 drives held and 17 % failed (5 % each allowed); see fixed-limits.test.ts
	return `A study of about ${enough(units + moreUnits)} drives would decide it, at the share seen: with another seed, or until decided, since drives added to these until they decide make a wrong verdict likelier than stated.`;
}
