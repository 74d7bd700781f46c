import { choiceNames } from '../../drive/drive.ts';
import {
	assumedWords,
	failingWords,
	shareSentences,
	solderedCells,
	weakestSentence,
} from '../../rare/weakest-words.ts';
import { calculationLine } from '../calculation-line.ts';
import { markedChoice } from '../choice-mark.ts';
import { html } from '../html.ts';
import { ofKind, type Report } from '../report.ts';
import { notComputed, type Section, section } from '../section.ts';
import { table } from '../table.ts';

const title = 'The likeliest failing drive';

/** The most probable combination of parts that fails, as parts that can be soldered, and how seldom such drives are. */
export function weakest(report: Report): Section {
	const [found] = ofKind(report, 'weakest');
	if (!found) {
		return notComputed(
			report,
			'weakest',
			title,
			'Which combination of parts is the likeliest to fail, and shares of failing drives too small to count, are not shown here.',
		);
	}
	const { result } = found;
	return section(
		'weakest',
		title,
		html`<p>${failingWords(result)}</p>
${choiceNames.map((choice) => {
	const one = result.choices[choice];
	return html`<section class="drive"><h3>${markedChoice(choice)}</h3>
<p>${weakestSentence(one)}</p>
${
	one.drive &&
	one.drive.parts.length > 0 &&
	table({
		caption: 'Parts to select and solder, to test the prediction; all others in the middle of their tolerances',
		head: ['Part, at 25 °C', 'value', 'deviation', 'weight'],
		rows: one.drive.parts.map((part) => ({ cells: solderedCells(part) })),
		notes: ['Weight: its share of the squared distance from the middle of all tolerances.'],
	})
}
<p>${shareSentences(one, result).map((sentence) => `${sentence} `)}</p></section>`;
})}
<p class="note">What these figures assume: ${assumedWords(result)}</p>
${calculationLine('weakest', result.provenance)}`,
	);
}
