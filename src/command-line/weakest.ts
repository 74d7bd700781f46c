import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { mostSearched, runWeakest } from '../host/run-weakest.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { jsonOption, text, wholeNumber } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { progressLine } from './progress-line.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';
import { weakestTable } from './weakest-table.ts';

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
		seed: text('TEXT', 'Draws starts, noise and drives: the same seed, the same figures. Default demo.', 'demo', 200),
		workers: wholeNumber(
			'N',
			'Worker threads, 1 to 256. Default: as many as the machine has cores. No figure depends on it.',
			null,
			[1, 256],
		),
		json: jsonOption,
	},
	remarks: [
		'What it is to fail is under “requirement” in the scenario. The parts are printed as one could select and solder them, to test the prediction; the JSON holds each as a board, under “board”, in the form that `board` reads.',
		'A share below what counting can see hangs on the tolerances’ distributions as stated: a uniform one ends at its limits, and with normal ones no part lies beyond the tolerance. A rate hangs on noise that is Gaussian and independent from reading to reading.',
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `weakest` command. @param host where its workers come from */
export async function weakest(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
	const { file, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(help === 'parameters' ? parameterHelp() : commandHelp(command));
		return exitCodes.done;
	}
	const input = file === '' ? { problems: [] } : readInput(file, command.file);
	const reading = 'text' in input ? readScenario(input.text) : input;
	const problems = [
		...argumentProblems,
		...outputProblems('--json', values.json, file),
		...('problems' in reading ? reading.problems : []),
	];
	if (problems.length > 0 || !('scenario' in reading)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const interruption = new AbortController();
	const stopListening = terminal.onInterrupt(() => interruption.abort());
	const { scenario } = reading;
	const progress = progressLine(terminal, mostSearched(scenario) + values.units, true);
	const result = await runWeakest(
		{
			scenario,
			seed: values.seed,
			units: values.units,
			workers: values.workers ?? undefined,
			signal: interruption.signal,
			onProgress: progress.show,
		},
		host,
	);
	progress.clear();
	stopListening();

	terminal.out(weakestTable(result));
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
