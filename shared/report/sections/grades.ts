import { type ChoiceName, choiceNames } from '../../drive/drive.ts';
import { gradeCells } from '../../grades/grade-cells.ts';
import { apartWords, earlyWords } from '../../grades/grade-words.ts';
import { groupWords, resistorCount } from '../../grades/resistor-groups.ts';
import type { GradesResult } from '../../grades/result.ts';
import { percent } from '../../words/figures.ts';
import { quantity } from '../../words/quantity.ts';
import { calculationLine } from '../calculation-line.ts';
import { markedChoice } from '../choice-mark.ts';
import { type Content, html, type Markup } from '../html.ts';
import { ofKind, type Report } from '../report.ts';
import { notComputed, type Section, section } from '../section.ts';
import { table } from '../table.ts';

const title = 'What grade of resistor is enough';

/** The loosest grade that holds for each choice, and what each grade does. */
export function grades(report: Report): Section {
	const [found] = ofKind(report, 'grades');
	if (!found) {
		return notComputed(
			report,
			'grades',
			title,
			'Whether a looser tolerance grade of the sensing resistors would do, or what a tighter one would give, is not shown here.',
		);
	}
	const { result } = found;
	return section(
		'grades',
		title,
		html`<p>Asked for the ${groupWords[result.group]}. ${choiceNames.map((choice) => `${result.enough[choice].sentence} `)}${earlyWords(result)}</p>
${choiceNames.map((choice) => gradeTable(result, choice))}
${nominalTable(result)}
${calculationLine('grades', result.provenance)}`,
	);
}

function gradeTable({ grades: judged, exact, group, provenance }: GradesResult, choice: ChoiceName): Content {
	if (resistorCount(group, choice) === 0)
		return html`<p>${markedChoice(choice)}: no resistor of the ${groupWords[group]} is on its board.</p>`;
	const apart = apartWords({ grades: judged });
	return table({
		caption: html`${markedChoice(choice)}: each grade, tightest first`,
		head: [
			'Grade',
			'pass',
			'at least',
			'median drive',
			'1 in 20 beyond',
			'wrong an hour',
			'nominals alone',
			'tolerance alone',
			'verdict',
		],
		words: [8],
		rows: [
			...judged.map(({ grade, cases, judged: by }) => {
				const verdict = by[choice];
				const { share, low, median, worse, hourly } = gradeCells(cases.both.choices[choice], verdict);
				return {
					cells: [
						grade.name,
						share,
						low,
						median,
						worse,
						hourly,
						percent(cases.nominals.choices[choice].share),
						percent(cases.tolerance.choices[choice].share),
						verdict?.decision ?? (provenance.partial ? '' : 'not judged'),
					],
				};
			}),
			exactRow(exact, choice),
		],
		notes: [
			'Each grade takes the nearest purchasable values of its series (IEC 60063). “Alone”: drives that pass with the purchasable values and no tolerance, and with the tolerance on the values as designed. Grades looser than the first that does not hold are not judged, so that the confidence is kept.',
			...(apart ? [apart] : []),
		],
	});
}

function exactRow(exact: GradesResult['exact'], choice: ChoiceName) {
	const { share, low, median, worse, hourly } = gradeCells(exact.choices[choice], null);
	return { mark: 'total', cells: ['exact resistors', share, low, median, worse, hourly, '', '', ''] };
}

function nominalTable({ grades: judged }: GradesResult): Markup {
	const resistors = judged[0]?.nominals ?? [];
	return table({
		caption: 'Purchasable nominal values',
		head: ['Resistor', 'designed', ...judged.map(({ grade }) => grade.name)],
		rows: resistors.map(({ name, designed }, place) => ({
			cells: [
				name,
				quantity(designed, 'Ω'),
				...judged.map(({ nominals }) => {
					const value = nominals[place]?.purchasable ?? Number.NaN;
					return value === designed ? 'as designed' : quantity(value, 'Ω');
				}),
			],
		})),
	});
}
