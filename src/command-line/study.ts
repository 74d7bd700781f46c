import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { runStudy } from '../host/run-study.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { jsonOption, text, wholeNumber } from './common-options.ts';
import { comparison } from './comparison.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { progressLine } from './progress-line.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';

const command = {
	name: 'study',
	purpose: 'compares half-bus and virtual-neutral sensing over many randomised drives.',
	file: 'SCENARIO.json',
	example: 'npm run --silent study -- scenarios/fan-24v.json --units 2000 --seed demo',
	options: {
		units: wholeNumber('N', 'Drives to simulate, 1 to 10 000 000. Default 1000.', 1000, [1, 10_000_000]),
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
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `study` command. @param host where its workers come from */
export async function study(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
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
	const progress = progressLine(terminal, values.units);
	const result = await runStudy(
		{
			scenario: reading.scenario,
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

	terminal.out(comparison(result));
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
