import { choiceNames } from '../../shared/drive/drive.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { studySentence } from '../../shared/study/sentence.ts';
import { stoppedWords } from '../../shared/study/stopping-sentence.ts';
import { heading } from './provenance-lines.ts';
import { wrapText } from './wrap-text.ts';

/** What was required, whether each choice holds it, which passes more drives and which errs less. */
export function decisionLines(result: StudyResult): string[] {
	const { requirement, verdict, comparison, provenance } = result;
	const answer = studySentence(result);
	const stopped = stoppedWords(result);
	return [
		heading('Verdict'),
		wrapText(requirement.sentence),
		'',
		...choiceNames.map((choice) => wrapText(verdict[choice].sentence, { first: '- ', rest: '  ' })),
		wrapText(comparison.sentence, { first: '- ', rest: '  ' }),
		wrapText(
			provenance.units.finished > 0 ? `By angle error, ${answer.charAt(0).toLowerCase()}${answer.slice(1)}` : answer,
			{ first: '- ', rest: '  ' },
		),
		...(stopped === '' ? [] : ['', wrapText(stopped)]),
	];
}
