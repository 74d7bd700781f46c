import { count, degrees, drives } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import type { StudyResult } from './result.ts';
import type { StoppingOutcome } from './stopping-rule.ts';

/** What hangs on no number of units fixed beforehand, and what does. */
const atEveryLook =
	"the verdict's limits hold for every look, other intervals and p values are those of a number fixed beforehand";

/**
 * What ended a study that was to run until something is known; empty for a fixed number of units.
 *
 * @param units run through, whatever became of them
 * @param isPartial whether it was cut short
 */
export function stoppingSentence(stopping: StoppingOutcome, units: number, isPartial = false): string {
	if (stopping.rule === 'number') return '';
	if (isPartial) {
		const what = stopping.rule === 'decided' ? 'the verdict was decided' : 'the figures were settled';
		return `Stopped after ${drives(units)}, before ${what}.`;
	}
	if (stopping.rule === 'decided') {
		const looked = `${count(stopping.looks.length)} ${stopping.looks.length === 1 ? 'look' : 'looks'}`;
		return stopping.reached
			? `The study ended at ${count(units)} drives, after ${looked}, with the verdict decided; ${atEveryLook}.`
			: `The verdict was not decided in ${looked} at up to ${count(stopping.ceiling)} drives; ${atEveryLook}.`;
	}
	const { figures, digits, batch } = stopping;
	const waited = figures.filter(({ lost }) => !lost);
	const open = waited.filter(({ settled }) => !settled);
	const lost = [...new Set(figures.filter((one) => one.lost).map(({ choice }) => choiceWords[choice]))];
	if (waited.length === 0) {
		return `Not settled in ${count(units)} drives: ${lost.join(' and ')} drives lost lock, so that no mean is left to settle.`;
	}
	const finest = Math.min(...waited.filter(({ tolerance }) => tolerance > 0).map(({ tolerance }) => tolerance));
	const tolerance = Number.isFinite(finest) ? `, ± ${degrees(finest)} where they spread least` : '';
	const asked = `mean, standard deviation and 95 % limits of the drives' errors to ${digits} significant ${digits === 1 ? 'digit' : 'digits'} of the standard deviation${tolerance} (JCGM 101:2008, 7.9, batches of ${count(batch)} drives)`;
	const left =
		lost.length > 0
			? ` Where ${lost.join(' and ')} drives lost lock there is no mean to settle, and it was not waited for.`
			: '';
	return stopping.reached
		? `Settled after ${count(units)} drives: ${asked}.${left}`
		: `Not settled in ${count(units)} drives, ${count(open.length)} of ${count(waited.length)} figures still moving: ${asked}.${left}`;
}

/** The same of a result, counting the drives that it was looked at with. */
export function stoppedWords({
	stopping,
	provenance: { units, partial },
}: Pick<StudyResult, 'stopping' | 'provenance'>): string {
	return stoppingSentence(stopping, partial ? units.finished + units.failed : units.asked, partial);
}
