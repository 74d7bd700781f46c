import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { count, degrees, percent, power, signedDegrees } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import { tooFewUnits } from '../words/too-few-units.ts';
import type { ChoiceTuning, FirmwareResult } from './firmware-result.ts';

type Answered = Omit<FirmwareResult, 'sentence'>;

/** What the firmware can take out for each choice, what stays, and what it changes for the passing share. */
export function firmwareSentence(result: Answered): string {
	const { provenance, choices, unitsPerRun, requirement } = result;
	const { asked, finished, failed } = provenance.units;
	if (finished === 0) return `None of the ${count(asked)} drives was finished: nothing is shown.`;
	// then no choice has a round either, and that says nothing of lock
	if (finished + failed < unitsPerRun)
		return `Stopped before the first round of ${count(unitsPerRun)} drives was finished: no tuning was found, and nothing is shown.`;
	const isJudged = choiceNames.some((choice) => choices[choice].confirmed !== null);
	const few = isJudged ? tooFewUnits(unitsPerRun, requirement, 'that the requirement holds') : '';
	return [...choiceNames.map((choice) => choiceSentence(result, choice)), few].filter(Boolean).join(' ');
}

function choiceSentence({ choices, unitsPerRun }: Answered, choice: ChoiceName): string {
	const { before, after, rounds, confirmed } = choices[choice];
	const name = `${choiceWords[choice]} sensing`;
	if (rounds === 0) return `With ${name} no drive keeps lock at every point: there is no mean error to null.`;
	const setting = `With ${name} a compensated delay of ${time(after.compensation)} (before: ${time(before.compensation)})${trimWords(after.advanceTrim)}`;
	if (confirmed === null)
		return `${setting} is as far as the search for a mean error of 0 over the operating points came: it was stopped before fresh drives confirmed it.`;
	// fewer than two drives that keep lock have no spread
	const { points } = confirmed.after.error;
	const [widest] = points
		.filter(({ betweenDrives }) => !Number.isNaN(betweenDrives))
		.sort((one, other) => other.betweenDrives - one.betweenDrives);
	const where = points.length > 1 ? ` at ${widest?.name}, where they spread most` : '';
	const stays = widest
		? `What stays is ${degrees(widest.betweenDrives)} of standard deviation from drive to drive${where}, and `
		: '';
	const change = changeWords(confirmed, unitsPerRun);
	return `${setting} ${change} ${stays}${passWords(confirmed)}.`;
}

/** What the settings do to the mean error: over the points, or only at single ones. */
function changeWords({ before, after }: NonNullable<ChoiceTuning['confirmed']>, units: number): string {
	const { mean: was } = before.error;
	const { mean: is, standardError } = after.error;
	const overall = 'the mean error over the operating points';
	const onFresh = (error: number): string => `(standard error ${degrees(error)}, ${count(units)} fresh drives)`;
	if (Number.isNaN(standardError))
		return `was tried on ${count(units)} fresh drives, of which too few keep lock to tell.`;
	if (Math.abs(is - was) > standardError)
		return `brings ${overall} from ${signedDegrees(was)} to ${signedDegrees(is)} ${onFresh(standardError)}.`;
	// means of either sign may cancel over the points; the largest of several moves is told from two standard errors on
	const moves = after.error.points.flatMap((point, place) => {
		const from = before.error.points[place]?.mean ?? Number.NaN;
		const move = Math.abs(point.mean - from);
		return move > 2 * point.standardError ? [{ ...point, from, move }] : [];
	});
	const [most] = moves.sort((one, other) => other.move - one.move);
	return most === undefined
		? `moves ${overall}, ${signedDegrees(was)} before, by less than its standard error ${onFresh(standardError)}: nothing is shown that could be taken out.`
		: `leaves ${overall} about where it is, ${signedDegrees(was)} before and ${signedDegrees(is)} after, and brings that at ${most.name} from ${signedDegrees(most.from)} to ${signedDegrees(most.mean)} ${onFresh(most.standardError)}.`;
}

function passWords({ before, after, change }: NonNullable<ChoiceTuning['confirmed']>): string {
	const shares = `${percent(after.verdict.share)} of drives pass, ${percent(before.verdict.share)} before`;
	if (change.gained === 0 && change.lost === 0) return `${shares}: the same drives`;
	const shown = change.p < 0.05 ? `a change that chance seldom makes, p = ${power(change.p)}` : 'no change is shown';
	return `${shares} (${count(change.gained)} gained, ${count(change.lost)} lost: ${shown})`;
}

const trimWords = (trim: number): string =>
	Math.abs(trim) < 0.005 ? '' : ` and ${degrees(Math.abs(trim))} ${trim > 0 ? 'more' : 'less'} of advance`;

const time = (seconds: number): string => quantity(seconds, 's');
