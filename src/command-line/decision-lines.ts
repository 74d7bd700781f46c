import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import type { ChoiceFigures, PassingPairs, StudyResult } from '../../shared/study/result.ts';
import { studySentence } from '../../shared/study/sentence.ts';
import { stoppingSentence } from '../../shared/study/stopping-sentence.ts';
import { type Shortcoming, shortcomings } from '../../shared/study/unit-passes.ts';
import { count } from '../../shared/words/figures.ts';
import { heading } from './provenance-lines.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/** What was required, whether each choice holds it, which passes more drives and which errs less. */
export function decisionLines(result: StudyResult): string[] {
	const { requirement, verdict, comparison, stopping, provenance } = result;
	const answer = studySentence(result);
	const stopped = stoppingSentence(stopping, provenance.units.asked);
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

const shortcomingWords: Readonly<Record<Shortcoming, string>> = {
	lock: 'lost lock',
	torque: 'short of the torque',
	angle: 'angle error too large',
	rate: 'too many false crossings',
};

/** How many drives pass a point, and what keeps the others from it. */
export function passingLines(choices: PerChoice<ChoiceFigures>, { only }: PassingPairs): string[] {
	const line = (label: string, words: (choice: ChoiceFigures) => string): string =>
		row(label, words(choices.halfBus), words(choices.virtualNeutral));
	const isSeen = (name: Shortcoming): boolean =>
		choiceNames.some((choice) => choices[choice].passing.shortcomings[name] > 0);
	return [
		line('Drives that pass here', ({ passing, units }) => `${count(passing.passed)} of ${count(units)}`),
		row('  with this choice alone', count(only.halfBus), count(only.virtualNeutral)),
		...shortcomings
			.filter(isSeen)
			.map((name) => line(`  ${shortcomingWords[name]}`, ({ passing }) => count(passing.shortcomings[name]))),
	];
}
