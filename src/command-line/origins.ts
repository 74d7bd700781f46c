import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { originsDrives, runOrigins } from '../host/run-origins.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { jsonOption, text, wholeNumber } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { originsTable } from './origins-table.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { pointNamed, pointOption } from './point-option.ts';
import { problemList } from './problem-list.ts';
import { progressLine } from './progress-line.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';

const command = {
	name: 'origins',
	purpose: 'tells which parts and conditions the spread of the commutation angle comes from, for each sensing choice.',
	file: 'SCENARIO.json',
	example: 'npm run --silent origins -- scenarios/fan-24v.json --point rated --rows 500',
	options: {
		point: pointOption,
		rows: wholeNumber(
			'N',
			'Rows of the design, 20 to 100 000; each is a drive, another, and one more for every group that varies. Default 500.',
			500,
			[20, 100_000],
		),
		units: wholeNumber(
			'N',
			'Drives of the ordinary study that rank correlations come from, 0 to 1 000 000; 0 leaves them out. Default 1000.',
			1000,
			[0, 1_000_000],
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
		"The spread is that of a drive's mean angle error in each of the six sector kinds, from noise-free crossings interpolated between readings, so that sampling does not hide the parts. “Alone” is the share that a group makes by itself (first-order index), “with interactions” what would stay if only it varied (total index).",
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `origins` command. @param host where its workers come from */
export async function origins(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
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
		rows: values.rows,
		units: values.units,
	};
	const progress = progressLine(terminal, originsDrives(request));
	const result = await runOrigins(
		{ ...request, workers: values.workers ?? undefined, signal: interruption.signal, onProgress: progress.show },
		host,
	);
	progress.clear();
	stopListening();

	terminal.out(originsTable(result));
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
