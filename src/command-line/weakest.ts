import { failingVerdictSentence } from '../../shared/rare/weakest-words.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { mostSearched, runWeakest } from '../host/run-weakest.ts';
import { text, wholeNumber } from './common-options.ts';
import type { GateCheck } from './gate.ts';
import { progressLine } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { weakestTable } from './weakest-table.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

const command = {
	name: 'weakest',
	purpose:
		'finds the likeliest combination of parts with which each sensing choice fails, and how seldom such drives are.',
	file: 'SCENARIO.json',
	example: 'npm run --silent weakest -- scenarios/fan-24v.json --units 4000',
	options: {
		units: wholeNumber(
			'N',
			'Drives drawn around the failing combinations for the share of failing drives, 100 to 10 000 000; the search comes on top. Default 4000.',
			4000,
			[100, 10_000_000],
		),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless few enough drives are shown to fail.'),
		'test-report': requireOptions['test-report'],
		...workOptions,
		seed: text('TEXT', 'Draws starts, noise and drives: the same seed, the same figures. Default demo.', 'demo', 200),
	},
	remarks: [
		'What it is to fail is under “requirement” in the scenario. The parts are printed as one could select and solder them, to test the prediction; the JSON holds each as a board, under “board”, in the form that `board` reads.',
		'A share below what counting can see hangs on the tolerances’ distributions as stated: a uniform one ends at its limits, and with normal ones no part lies beyond the tolerance. A rate hangs on noise that is Gaussian and independent from reading to reading.',
		...workRemarks('too many drives may fail'),
	],
};

/** The `weakest` command. */
export const weakest = scenarioCommand({
	record: command,
	ask: (scenario, { seed, units }) => ({ request: { scenario, seed, units } }),
	progress: (terminal, { scenario, units }) => progressLine(terminal, mostSearched(scenario) + units, true),
	run: runWeakest,
	table: weakestTable,
	gate: (result, { choice }) =>
		choice.map((one): GateCheck => {
			const own = result.choices[one];
			return {
				name: `${choiceWords[one]} holds`,
				outcome: own.verdict.decision,
				sentence: failingVerdictSentence(own, result.requirement),
			};
		}),
});
