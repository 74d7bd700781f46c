import type { ChoiceName } from '../../drive/drive.ts';
import { choiceNames } from '../../drive/drive.ts';
import {
	type ChoiceOrigins,
	fewestRows,
	type GroupShare,
	type OriginsResult,
	type Share,
} from '../../origins/origins-result.ts';
import { shareWords } from '../../origins/origins-sentence.ts';
import { count, degrees, span } from '../../words/figures.ts';
import { levelWords } from '../../words/level.ts';
import { calculationLine } from '../calculation-line.ts';
import { markedChoice } from '../choice-mark.ts';
import { type Content, html, type Markup, raw } from '../html.ts';
import { ofKind, type Report } from '../report.ts';
import { notComputed, type Section, section } from '../section.ts';
import { table } from '../table.ts';

const title = 'Where the spread comes from';
/** Half a per cent of the variance, below which a group is not drawn. */
const slight = 0.005;

/** The share of the variance that each group of parts and conditions makes, point by point. */
export function origins(report: Report): Section {
	const found = ofKind(report, 'origins');
	if (found.length === 0) {
		return notComputed(
			report,
			'origins',
			title,
			'Which parts would have to be better for the spread to shrink is not shown here.',
		);
	}
	return section(
		'origins',
		title,
		html`<p>The spread is that of a drive's mean angle error in each of the six kinds of sector, from noise-free crossings
interpolated between readings, so that sampling does not hide the parts. “Alone” is the share that a group makes by itself
(first-order index), “with interactions” what would stay if only it varied (total index). Both are estimates by themselves:
a share below 0, or one that is larger alone than with interactions, is chance, as its limits tell.</p>
${found.map(({ result }) => originsOfPoint(result))}`,
	);
}

const originsOfPoint = (result: OriginsResult): Markup => html`
<section class="point"><h3>${result.point}</h3>
<p>${result.sentence}</p>
${choiceNames.map((choice) => shareTable(result, choice))}
${calculationLine('origins', result.provenance)}</section>`;

function shareTable({ choices, provenance, rows: asked }: OriginsResult, choice: ChoiceName): Content {
	const origins: ChoiceOrigins = choices[choice];
	const left =
		origins.rowsWithout > 0 &&
		`${count(origins.rowsWithout)} of ${count(asked)} rows are left out, since a drive of each lost lock or found no crossing in some kind of sector.`;
	// from fewer rows no share has limits; the sentence above says so
	if (origins.rows < fewestRows || origins.groups.length === 0) {
		return html`<p>${markedChoice(choice)}: nothing to share out. ${left}</p>`;
	}
	const isSlight = ({ first, total }: GroupShare): boolean => first.high < slight && total.high < slight;
	const small = origins.groups.filter(isSlight).map(({ name }) => name);
	const confidence = levelWords(provenance.level);
	return table({
		caption: html`${markedChoice(choice)}: shares of the variance, standard deviation ${degrees(origins.spread)}`,
		head: [
			'',
			html`<span class="scale">0 to 100 %</span>`,
			'alone',
			`${confidence} limits`,
			'with interactions',
			`${confidence} limits`,
		],
		words: [1],
		kind: 'shares',
		rows: origins.groups
			.filter((group) => !isSlight(group))
			.map(({ name, first, total }) => ({
				cells: [
					name,
					bar(first, choice),
					shareWords(first.value),
					limits(first),
					shareWords(total.value),
					limits(total),
				],
			})),
		notes: [
			left,
			small.length > 0 && `Below half a per cent, each: ${small.join(', ')}.`,
			origins.still.length > 0 && `Without spread of their own here: ${origins.still.join(', ')}.`,
		],
	});
}

const limits = ({ low, high }: Share): string => span(shareWords(low), shareWords(high));

/** A share as a bar with its interval as a whisker, 0 to 1 over 100 px. */
function bar({ value, low, high }: Share, choice: ChoiceName): Markup {
	const at = (share: number): string => (100 * Math.min(1, Math.max(0, share))).toFixed(1);
	return raw(
		`<svg class="bar ${choice}" viewBox="0 0 100 10" width="100" height="10" aria-hidden="true"><path class="axis" d="M0 0v10M100 0v10"/><rect y="2" height="6" width="${at(value)}"/><path class="whisker" d="M${at(low)} 5H${at(high)}M${at(low)} 2.5v5M${at(high)} 2.5v5"/></svg>`,
	);
}
