import { choiceNames } from '../../../shared/drive/drive.ts';
import type { PointChange } from '../../../shared/study/point-change.ts';
import { type ChangeWords, changedDrives, inDegrees, wordsOf } from '../../../shared/words/change.ts';
import { levelWords } from '../../../shared/words/level.ts';
import { choiceWords } from '../../../shared/words/names.ts';

/** What changed since the baseline: the steps, and what they are of. */
export interface Changed {
	readonly lead: string;
	readonly basis: string;
}

/** What changed at a point. */
export function changeWords(point: string, change: PointChange, level: number): Changed {
	const each = choiceNames.map((choice) => {
		const words = wordsOf(change.choices[choice].typical, inDegrees);
		return words && `${choiceWords[choice]} ${stepWords(words)}`;
	});
	return {
		lead: `Since the baseline, at ${point}: ${each.join('; ')}.`,
		basis: `The median drive: what 95\u00a0% of its commutations keep within, on ${changedDrives(change)}; ${reachWords(level)}.`,
	};
}

/** "8.10° → 6.90°, −1.20° ± 0.30°", with what is to be doubted of it. */
export function stepWords({ before, after, step, isShown }: ChangeWords): string {
	const doubt = step === '' || isShown ? '' : ' (no change shown)';
	// a step is not torn from its reach at a line's end
	return `${fromTo(before, after)}${step && `, ${step.replace(' ±', '\u00a0±')}`}${doubt}`;
}

/** "8.10° → 6.90°": the arrow is not left behind at a line's end. */
export const fromTo = (before: string, after: string): string => `${before} →\u00a0${after}`;

/** The same where both are alike: "8.10° as before". */
export const thenNow = (before: string, after: string): string =>
	before === after ? `${after} as before` : fromTo(before, after);

/** What ± says. */
export const reachWords = (level: number): string => `±\u00a0to the farther limit of the ${levelWords(level)} interval`;
