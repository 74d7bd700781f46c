import { choiceNames } from '../../drive/drive.ts';
import { shortcomingWords } from '../../study/point-rows.ts';
import type { ChoiceVerdict, StudyResult } from '../../study/result.ts';
import { studySentence } from '../../study/sentence.ts';
import { shortcomings } from '../../study/unit-passes.ts';
import { count, percent } from '../../words/figures.ts';
import { levelWords } from '../../words/level.ts';
import { choiceWords } from '../../words/names.ts';
import { choiceHeads, markedChoice } from '../choice-mark.ts';
import { html, type Markup } from '../html.ts';
import { ofKind, type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';

/** Each choice against the requirement in a sentence, which is better, and what the others fell short in. */
export function verdict(report: Report): Section {
	const { result } = studyOf(report);
	const { comparison, provenance } = result;
	return section(
		'verdict',
		'The verdict',
		html`
${provenance.partial && html`<p class="warning"><strong>Partial result:</strong> the study was cut short after ${count(provenance.units.finished)} of ${count(provenance.units.asked)} drives. It must not be signed.</p>`}
${!provenance.partial && report.isCutShort && html`<p class="warning"><strong>Interrupted:</strong> the study itself is whole, but not all that was asked for beside it was computed.</p>`}
<p>Required: that at least ${levelWords(result.requirement.share)} of drives pass, shown with ${levelWords(result.requirement.confidence)} confidence.</p>
<ul class="verdicts">${choiceNames.map(
			(choice) => html`
<li class="${result.verdict[choice].decision}"><span class="decision">${markedChoice(choice)} <b>${result.verdict[choice].decision}</b></span>
${result.verdict[choice].sentence}</li>`,
		)}</ul>
<p>${comparison.sentence}</p>
${cornerWords(report)}
${provenance.warnings.length > 0 && html`<p class="warning"><strong>${count(provenance.warnings.length)} ${provenance.warnings.length === 1 ? 'caution goes' : 'cautions go'} with these inputs:</strong> see <a href="#cautions">Cautions</a>.</p>`}
<p>Commutation angle, drive by drive: ${studySentence(result)}</p>
${shortcomingTable(result)}`,
	);
}

/** What the worst corner of the conditions says, where it was looked for: it may be worse than the verdict. */
function cornerWords(report: Report): Markup | null {
	const [envelope] = ofKind(report, 'envelope');
	if (!envelope) return null;
	const { worst, combinations } = envelope.result;
	const parts = choiceNames.flatMap((choice) => {
		const found = combinations[worst[choice] ?? -1]?.choices[choice].verdict;
		return found && found.share >= 0
			? [`${choiceWords[choice]} ${found.decision} (${percent(found.share)} of drives pass)`]
			: [];
	});
	return parts.length > 0
		? html`<p>These verdicts are for conditions drawn inside their ranges. Each at the worst combination of the ranges’ limits: ${parts.join(', ')}; see <a href="#envelope">The envelope of conditions</a>.</p>`
		: null;
}

/** How many drives pass each point with each choice, and what kept the others from it. */
function shortcomingTable({ points, verdict: verdicts, requirement }: StudyResult): Markup {
	const rows = points.flatMap(({ name, choices }) => [
		{
			cells: [
				name,
				...choiceNames.map((choice) => {
					const { passing, units } = choices[choice];
					return `${count(passing.passed)} of ${count(units)}`;
				}),
			],
		},
		...shortcomings
			.filter((one) => choiceNames.some((choice) => choices[choice].passing.shortcomings[one] > 0))
			.map((one) => ({
				level: 1,
				cells: [
					shortcomingWords[one],
					...choiceNames.map((choice) => count(choices[choice].passing.shortcomings[one])),
				],
			})),
	]);
	const overall = choiceNames.map((choice) => {
		const { passed, failed, notSimulated, share } = verdicts[choice];
		return `${count(passed)} of ${count(passed + failed + notSimulated)} (${percent(share)})`;
	});
	return table({
		caption: 'Drives that pass, and the first reason why others do not',
		head: ['Operating point', ...choiceHeads],
		rows: [...rows, { mark: 'total', cells: ['All points together', ...overall] }],
		notes: [
			`A drive passes the study only where it passes every operating point. Limits on the share are ${limitWords[verdicts.halfBus.limits]}, at ${levelWords(requirement.confidence)} confidence for each choice by itself.`,
		],
	});
}

const limitWords: Readonly<Record<ChoiceVerdict['limits'], string>> = {
	'Clopper–Pearson': 'exact and one-sided',
	'confidence sequence': 'those of a confidence sequence, which hold however often the study was looked at',
};
