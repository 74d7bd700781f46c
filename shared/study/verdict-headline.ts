import { choiceNames } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { StudyResult } from './result.ts';

/** Both verdicts in one short sentence; what each rests on is in their own. */
export function verdictHeadline({ verdict, requirement }: Pick<StudyResult, 'verdict' | 'requirement'>): string {
	const words = choiceNames.map((choice, place) => {
		const { decision, passed, failed, notSimulated } = verdict[choice];
		const judged = `${count(passed)} of ${count(passed + failed + notSimulated)}`;
		const says = decision === 'undecided' ? 'is undecided' : decision;
		return `${choiceWords[choice]} ${says} (${judged}${place === 0 ? ' drives pass' : ''})`;
	});
	const { share, confidence } = requirement;
	return `${capital(words.join(', '))}; ${levelWords(share)} must pass, shown with ${levelWords(confidence)} confidence.`;
}
