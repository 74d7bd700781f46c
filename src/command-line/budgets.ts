import { budgetsDrives, runBudgets } from '../host/run-budgets.ts';
import { budgetsTable } from './budgets-table.ts';
import { wholeNumber } from './common-options.ts';
import { askedAt, pointOption } from './point-option.ts';
import { progressLine } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { workOptions } from './work-options.ts';

const command = {
	name: 'budgets',
	purpose:
		'sets three tolerance budgets of the commutation angle side by side: extreme value, root-sum-square and Monte Carlo.',
	file: 'SCENARIO.json',
	example: 'npm run --silent budgets -- scenarios/fan-24v.json --point rated --units 1000',
	options: {
		point: pointOption,
		units: wholeNumber(
			'N',
			'Drives drawn for the Monte Carlo budget, 100 to 1 000 000. Default 1000.',
			1000,
			[100, 1_000_000],
		),
		...workOptions,
	},
	remarks: [
		"All three are budgets of the same figure: a drive's mean angle error in each of the six sector kinds, from noise-free crossings interpolated between readings, as a change against the drive with every part and condition in the middle of its limits.",
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `budgets` command. */
export const budgets = scenarioCommand({
	record: command,
	ask: (scenario, { point, seed, units }) => askedAt(scenario, point, { seed, units }),
	progress: (terminal, request) => progressLine(terminal, budgetsDrives(request)),
	run: runBudgets,
	table: budgetsTable,
});
