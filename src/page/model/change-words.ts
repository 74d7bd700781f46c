import { choiceNames } from '../../../shared/drive/drive.ts';
import type { PointChange } from '../../../shared/study/point-change.ts';
import { changedDrives, inDegrees, wordsOf } from '../../../shared/words/change.ts';
import { levelWords } from '../../../shared/words/level.ts';
import { choiceWords } from '../../../shared/words/names.ts';

/** What changed at a point since the baseline: the steps, and what they are of. */
export function changeWords(
	point: string,
	change: PointChange,
	level: number,
): { readonly lead: string; readonly basis: string } {
	const each = choiceNames.map((choice) => {
		const words = wordsOf(change.choices[choice].typical, inDegrees);
		if (!words) return '';
		// a step is not torn from its reach at a line's end
		const step = words.step && `, ${words.step.replace(' ±', '\u00a0±')}`;
		const doubt = words.step === '' || words.isShown ? '' : ' (no change shown)';
		return `${choiceWords[choice]} ${words.before} → ${words.after}${step}${doubt}`;
	});
	return {
		lead: `Since the baseline, at ${point}: ${each.join('; ')}.`,
		basis: `The median drive: what 95\u00a0% of its commutations keep within, on ${changedDrives(change)}; ± to the farther limit of the ${levelWords(level)} interval.`,
	};
}
