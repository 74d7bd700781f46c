import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { gradeCells } from '../../shared/grades/grade-cells.ts';
import {
	apartWords,
	earlyWords,
	errorWords,
	heldWords,
	judgedWords,
	nominalWords,
} from '../../shared/grades/grade-words.ts';
import { groupWords, resistorCount } from '../../shared/grades/resistor-groups.ts';
import type { CaseChoice, CaseFigures, CheapestMix, GradeResult, GradesResult } from '../../shared/grades/result.ts';
import { mixWords } from '../../shared/grades/sentence.ts';
import type { Verdict } from '../../shared/statistics/verdict.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { capital } from '../../shared/words/capital.ts';
import { count, percent } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { cautionLines, heading } from './provenance-lines.ts';
import { padEnd, padStart, widthOf, wrapText } from './wrap-text.ts';

/** Mixes listed one by one; the JSON has all. */
const mixesShown = 5;

/** Which grade is enough, as a text of 80 columns: the answer, the figures, what they rest on. */
export function gradesTable(result: GradesResult): string {
	const { provenance, group, enough, enoughOfArrays, cheapest } = result;
	const { requirement } = provenance;
	const lines = [
		wrapText(`${provenance.scenario}: what grade is enough for the ${groupWords[group]}`),
		wrapText(requirementSentence(requirement)),
		'',
		...choiceNames.flatMap((choice) => [
			wrapText(enough[choice].sentence),
			...(enoughOfArrays && resistorCount(group, choice) > 0 ? [wrapText(enoughOfArrays[choice].sentence)] : []),
		]),
		...(cheapest ? choiceNames.map((choice) => wrapText(cheapest[choice].sentence)) : []),
	];
	const early = earlyWords(result);
	if (early) lines.push(wrapText(early));
	if (provenance.partial)
		lines.push(wrapText('PARTIAL RESULT: interrupted; the figures are those of the drives that finished.'));
	for (const choice of choiceNames) {
		lines.push('', heading(choiceWords[choice]), ...choiceLines(result, choice));
		if (cheapest) lines.push('', ...mixLines(cheapest[choice]));
	}
	lines.push('', heading('Purchasable nominal values'), ...result.grades.map(nominalLine), ...groundLines(result));
	return `${lines.join('\n')}\n`;
}

function choiceLines({ exact, grades, group, provenance }: GradesResult, choice: ChoiceName): string[] {
	if (resistorCount(group, choice) === 0) {
		const { share, unitError } = exact.choices[choice];
		return [
			wrapText(
				`No resistor of the ${groupWords[group]} is on its board: ${percent(share)} pass, 1 drive in 20 is worse than ${errorWords(unitError.q95)}.`,
			),
		];
	}
	const apart = apartWords({ grades });
	const isPriced = grades.some(({ price }) => price !== null);
	const gradeRow = gradeRowFor(grades.map(({ price }) => priceWords(price?.[choice] ?? null)));
	return [
		gradeRow(['grade', 'pass', 'at least', 'median', '1 in 20', 'gone wrong', isPriced ? 'price' : '', 'verdict']),
		gradeRow(['', '', '', 'drive', 'beyond', 'an hour', '', '']),
		...grades.map(({ grade, cases, judged, price }) =>
			gradeRow([
				grade.name,
				...figureCells(cases.both.choices[choice], judged[choice]),
				priceWords(price?.[choice] ?? null),
				judgedWords(judged[choice], provenance.partial),
			]),
		),
		gradeRow(['exact resistors', ...figureCells(exact.choices[choice], null)]),
		'',
		'Effects apart: pass, and 1 drive in 20 beyond',
		effectRow(['grade', 'exact', 'nominals alone', 'tolerance alone', 'both']),
		...grades.map(({ grade, cases }) =>
			effectRow([
				grade.name,
				...[exact, cases.nominals, cases.tolerance, cases.both].map((one) => effectWords(one, choice)),
			]),
		),
		...(apart ? [wrapText(apart)] : []),
	];
}

/** @param judged what the grade was judged with */
function figureCells(figures: CaseChoice, judged: Verdict | null): string[] {
	const { share, low, median, worse, hourly } = gradeCells(figures, judged);
	return [share, low, median, worse, hourly];
}

const priceWords = (price: number | null): string => (price === null ? '' : String(price));

const effectWords = ({ choices }: CaseFigures, choice: ChoiceName): string =>
	`${percent(choices[choice].share)} ${errorWords(choices[choice].unitError.q95)}`;

/** Columns of one line, 80 in all: the first to the left, the others to the right. */
const columns =
	(widths: readonly number[]) =>
	(cells: readonly string[]): string =>
		cells
			.map((cell, i) => {
				if (i > 0) return padStart(cell, widths[i] as number);
				// a name that fills its column has a line of its own
				return widthOf(cell) < (widths[0] as number)
					? padEnd(cell, widths[0] as number)
					: `${cell}\n${padEnd('', widths[0] as number)}`;
			})
			.join('')
			.trimEnd();

/** A wide price takes its room from the names, which can have a line of their own; two blanks before it, since one groups digits. */
function gradeRowFor(prices: readonly string[]) {
	const width = Math.max(6, ...prices.map((price) => widthOf(price) + 2));
	return columns([23 - width, 8, 9, 8, 8, 12, width, 11]);
}

const effectRow = columns([17, 15, 16, 16, 16]);

function mixLines({ searched, fresh }: CheapestMix): string[] {
	const held = searched.filter(({ verdict }) => verdict.decision === 'holds');
	return [
		`${heldWords(held.length, searched.length)}${held.length > 0 ? '; the cheapest of them' : '.'}`,
		...held
			.slice(0, mixesShown)
			.map((mix) => wrapText(`${mixWords(mix)}: ${percent(mix.verdict.share)} pass`, indented)),
		...fresh.map(({ subject, seed, verdict }) =>
			wrapText(
				`on fresh drives (seed ${seed}) ${mixWords(subject)}: ${percent(verdict.share)} pass, ${verdict.decision}`,
				indented,
			),
		),
	];
}

function nominalLine({ grade, nominals }: GradeResult): string {
	return wrapText(`${grade.name}, ${grade.series.join(' or ')}: ${nominalWords(nominals)}`, indented);
}

function groundLines({ provenance, grades }: GradesResult): string[] {
	const failed = grades.reduce((sum, { cases }) => sum + cases.both.units.failed, 0);
	const failures =
		failed > 0
			? [item(`${count(failed)} drives of the grades' runs could not be simulated; they count against a grade.`)]
			: [];
	return [
		...cautionLines(provenance),
		'',
		heading('What this rests on'),
		`Drives     ${count(provenance.units.asked)} in ${count(provenance.runs)} runs of at most ${count(provenance.unitsPerRun)}; seed ${provenance.seed}; version ${provenance.version}`,
		`Scenario   ${provenance.scenarioDigest}`,
		`Result     ${provenance.resultDigest}`,
		...failures,
		...Object.entries(provenance.methods).map(([figure, method]) => item(`${capital(figure)}: ${method}.`)),
		item(
			'These are simulated estimates. Bus voltages and rotating parts are dangerous: local codes, measurement on real hardware and qualified practice decide.',
		),
	];
}

const indented = { first: '  ', rest: '      ' };

const item = (text: string): string => wrapText(text, { first: '- ', rest: '  ' });
