import { choiceNames } from '../../../shared/drive/drive.ts';
import type { PointChange } from '../../../shared/study/point-change.ts';
import { inDegrees, wordsOf } from '../../../shared/words/change.ts';
import { count } from '../../../shared/words/figures.ts';
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
	const whose = change.paired
		? `the same ${count(change.units)} drives`
		: `${count(change.units)} drives each, not the same`;
	return {
		lead: `Since the baseline, at ${point}: ${each.join('; ')}.`,
		basis: `The median drive: what 95\u00a0% of its commutations keep within, on ${whose}; ± to the farther limit of the ${levelWords(level)} interval.`,
	};
}
