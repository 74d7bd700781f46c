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
	const { asked, finished } = provenance.units;
	if (finished === 0) return `None of the ${count(asked)} drives was finished: nothing is shown.`;
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
		return `${setting} would null the mean error over the operating points; it was not confirmed.`;
	const { error } = confirmed.after;
	const widest = error.points.reduce((one, other) => (other.betweenDrives > one.betweenDrives ? other : one));
	const where = error.points.length > 1 ? ` at ${widest.name}, where they spread most` : '';
	const [was, is] = [confirmed.before.error.mean, error.mean];
	const onFresh = `(standard error ${degrees(error.standardError)}, ${count(unitsPerRun)} fresh drives)`;
	const change =
		Math.abs(is - was) > error.standardError
			? `brings the mean error over the operating points from ${signedDegrees(was)} to ${signedDegrees(is)} ${onFresh}.`
			: `moves the mean error over the operating points, ${signedDegrees(was)} before, by less than its standard error ${onFresh}: there was nothing to take out.`;
	return `${setting} ${change} What stays is ${degrees(widest.betweenDrives)} of standard deviation from drive to drive${where}, and ${passWords(confirmed)}.`;
}

function passWords({ before, after, change }: NonNullable<ChoiceTuning['confirmed']>): string {
	const shares = `${percent(after.verdict.share)} of drives pass, ${percent(before.verdict.share)} before`;
	if (change.gained === 0 && change.lost === 0) return `${shares}: the same drives`;
	const shown = change.p < 0.05 ? `the change is no chance, p = ${power(change.p)}` : 'no change is shown';
	return `${shares} (${count(change.gained)} gained, ${count(change.lost)} lost: ${shown})`;
}

const trimWords = (trim: number): string =>
	Math.abs(trim) < 0.005 ? '' : ` and ${degrees(Math.abs(trim))} ${trim > 0 ? 'more' : 'less'} of advance`;

const time = (seconds: number): string => quantity(seconds, 's');
