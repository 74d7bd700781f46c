import { mostSearched, runWeakest } from '../host/run-weakest.ts';
import { text, wholeNumber } from './common-options.ts';
import { progressLine } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { weakestTable } from './weakest-table.ts';
import { workOptions } from './work-options.ts';

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
		...workOptions,
		seed: text('TEXT', 'Draws starts, noise and drives: the same seed, the same figures. Default demo.', 'demo', 200),
	},
	remarks: [
		'What it is to fail is under “requirement” in the scenario. The parts are printed as one could select and solder them, to test the prediction; the JSON holds each as a board, under “board”, in the form that `board` reads.',
		'A share below what counting can see hangs on the tolerances’ distributions as stated: a uniform one ends at its limits, and with normal ones no part lies beyond the tolerance. A rate hangs on noise that is Gaussian and independent from reading to reading.',
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `weakest` command. */
export const weakest = scenarioCommand({
	record: command,
	ask: (scenario, { seed, units }) => ({ request: { scenario, seed, units } }),
	progress: (terminal, { scenario, units }) => progressLine(terminal, mostSearched(scenario) + units, true),
	run: runWeakest,
	table: weakestTable,
});
