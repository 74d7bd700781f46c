import { choiceNames } from '../../shared/drive/drive.ts';
import type { WeakestChoice, WeakestResult } from '../../shared/rare/weakest-result.ts';
import {
	assumedWords,
	failingWords,
	shareSentences,
	solderedCells,
	weakestSentence,
} from '../../shared/rare/weakest-words.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** The likeliest failing drive of each choice and how often drives fail, 80 columns. */
export function weakestTable(result: WeakestResult): string {
	const { provenance, choices } = result;
	const lines = [wrapText(`${provenance.scenario}: the likeliest failing drives`), '', wrapText(failingWords(result))];
	if (provenance.partial) lines.push(wrapText('PARTIAL RESULT: interrupted; what had finished is shown.'));
	for (const choice of choiceNames) {
		lines.push('', heading(choiceWords[choice]), ...choiceLines(choices[choice], result));
	}
	lines.push('', heading('What these figures assume'), wrapText(assumedWords(result)), ...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function choiceLines(choice: WeakestChoice, result: WeakestResult): string[] {
	const sentence = weakestSentence(choice);
	return [
		...(sentence === '' ? [] : [wrapText(sentence)]),
		...(choice.drive && choice.drive.parts.length > 0
			? [
					'',
					cells('  Part, at 25 °C', 'value', 'deviation', 'weight'),
					...choice.drive.parts.map((part) => {
						const [name, ...figures] = solderedCells(part);
						return cells(`  ${name}`, ...figures);
					}),
					wrapText('  All other parts in the middle of their tolerances.', { rest: '  ' }),
					'',
				]
			: []),
		...shareSentences(choice, result).map((line) => wrapText(line, { rest: '  ' })),
	];
}

const cells = (name: string, value: string, deviation: string, weight: string): string =>
	padEnd(name, 38) + padStart(value, 14) + padStart(deviation, 14) + padStart(weight, 10);
