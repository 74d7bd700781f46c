import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { budgetsDrives, runBudgets } from '../host/run-budgets.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { budgetsTable } from './budgets-table.ts';
import { jsonOption, text, wholeNumber } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { pointNamed, pointOption } from './point-option.ts';
import { problemList } from './problem-list.ts';
import { progressLine } from './progress-line.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';

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
		seed: text('TEXT', 'Draws the drives: the same seed, the same drives. Default demo.', 'demo', 200),
		workers: wholeNumber(
			'N',
			'Worker threads, 1 to 256. Default: as many as the machine has cores. No figure depends on it.',
			null,
			[1, 256],
		),
		json: jsonOption,
	},
	remarks: [
		"All three are budgets of the same figure: a drive's mean angle error in each of the six sector kinds, from noise-free crossings interpolated between readings, as a change against the drive with every part and condition in the middle of its limits.",
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `budgets` command. @param host where its workers come from */
export async function budgets(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
	const { file, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(help === 'parameters' ? parameterHelp() : commandHelp(command));
		return exitCodes.done;
	}
	const input = file === '' ? { problems: [] } : readInput(file, command.file);
	const reading = 'text' in input ? readScenario(input.text) : input;
	const named = 'scenario' in reading ? pointNamed(reading.scenario, values.point) : { point: 0 };
	const problems = [
		...argumentProblems,
		...outputProblems('--json', values.json, file),
		...('problem' in named ? [named.problem] : []),
		...('problems' in reading ? reading.problems : []),
	];
	if (problems.length > 0 || !('scenario' in reading) || !('point' in named)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const interruption = new AbortController();
	const stopListening = terminal.onInterrupt(() => interruption.abort());
	const request = {
		scenario: reading.scenario,
		point: named.point,
		seed: values.seed,
		units: values.units,
	};
	const progress = progressLine(terminal, budgetsDrives(request));
	const result = await runBudgets(
		{ ...request, workers: values.workers ?? undefined, signal: interruption.signal, onProgress: progress.show },
		host,
	);
	progress.clear();
	stopListening();

	terminal.out(budgetsTable(result));
	if (values.json !== null) {
		try {
			writeJson(values.json, result);
		} catch (error) {
			terminal.err(`${values.json} could not be written: ${fileErrorWords(error)}\n`);
			return exitCodes.broken;
		}
	}
	return result.provenance.partial ? exitCodes.interrupted : exitCodes.done;
}
