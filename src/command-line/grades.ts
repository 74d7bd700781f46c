import type { ChoiceName } from '../../shared/drive/drive.ts';
import { readOffer, usualGrades } from '../../shared/grades/read-offer.ts';
import { type AskedGroup, groupWords, resistorCount } from '../../shared/grades/resistor-groups.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { runGrades } from '../host/run-grades.ts';
import { text, wholeNumber, word } from './common-options.ts';
import type { GateCheck } from './gate.ts';
import { gradesTable } from './grades-table.ts';
import { stagedProgress } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

const command = {
	name: 'grades',
	purpose: 'tells which tolerance grade of the sensing resistors is enough for what the scenario requires.',
	file: 'SCENARIO.json',
	example: 'npm run --silent grades -- scenarios/fan-24v.json --grades "5 %, 1 %, 0.1 %"',
	options: {
		group: word<AskedGroup, AskedGroup>(
			{ divider: 'divider', busDivider: 'busDivider', star: 'star', all: 'all' },
			'Resistors to be graded: phase dividers, bus divider, star, or all of them. Default all.',
			'all',
			{ halfBus: 'busDivider', phaseDivider: 'divider', dividers: 'divider', virtualNeutral: 'star', neutral: 'star' },
		),
		grades: text(
			'LIST',
			'Grades, separated by commas: "1 %", with another series than the usual one "1 % E24" or "1 % E24+E96", an array by absolute and ratio tolerance "array 1 %/0.1 %". Default 5 %, 2 %, 1 %, 0.5 %, 0.1 %.',
			usualGrades,
			400,
		),
		prices: text(
			'LIST',
			'Price of one resistor in each grade, in the same order, in any unit of money: "0.2, 0.3, 0.5". With group all, the cheapest mix over the groups is sought too.',
			null,
			400,
		),
		units: wholeNumber(
			'N',
			'Drives in each run, 1 to 1 000 000; a run of which no more could change what is said ends earlier. Default 1000.',
			1000,
			[1, 1_000_000],
		),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless a grade holds and fresh drives confirm one.'),
		'test-report': requireOptions['test-report'],
		...workOptions,
	},
	remarks: [
		'Usual series: 20 % E6, 10 % E12, 5 % E24, 2 % E48, 1 % E96, tighter E192; an array goes by its absolute tolerance.',
		...workRemarks('no grade is confirmed'),
	],
};

/** Choices whose boards have resistors of the group. */
const concerned = ({ choice, group }: { readonly choice: readonly ChoiceName[]; readonly group: AskedGroup }) =>
	choice.filter((one) => resistorCount(group, one) > 0);

/** The `grades` command. */
export const grades = scenarioCommand({
	record: command,
	optionProblems(values) {
		const offer = readOffer(values.grades, values.prices);
		const about = `names a board without resistors of the ${groupWords[values.group]}`;
		return [
			...problemsOf(offer),
			...(concerned(values).length === 0 ? [{ path: '--choice', value: '', message: about }] : []),
		];
	},
	ask(scenario, values) {
		const offer = readOffer(values.grades, values.prices);
		const { group, seed, units } = values;
		// what is wrong with the offer is listed among the options
		if ('problems' in offer) return { problems: [] };
		return { request: { scenario, group, grades: offer.grades, seed, units } };
	},
	progress: stagedProgress,
	run: runGrades,
	table: gradesTable,
	gate: (result, values) =>
		concerned(values).map((choice): GateCheck => {
			const found = [result.enough, result.enoughOfArrays].flatMap((kind) => kind?.[choice] ?? []);
			const enough = found.find(({ confirmed }) => confirmed !== null);
			return {
				name: `${choiceWords[choice]}: a grade is enough, and fresh drives confirm it`,
				outcome: enough ? 'holds' : 'undecided',
				sentence: (enough ?? found[0])?.sentence ?? '',
			};
		}),
});

const problemsOf = (offer: ReturnType<typeof readOffer>): readonly Problem[] =>
	'problems' in offer ? offer.problems.map(({ of, value, message }) => ({ path: `--${of}`, value, message })) : [];
