import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { runFirmware } from '../host/run-firmware.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { wholeNumber } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { firmwareTable } from './firmware-table.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import { stagedProgress } from './staged-progress.ts';
import type { Terminal } from './terminal.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

const command = {
	name: 'firmware',
	purpose: 'finds what firmware can take out of the angle error: the delay and the advance that null its mean.',
	file: 'SCENARIO.json',
	example: 'npm run --silent firmware -- scenarios/fan-24v.json --units 500',
	options: {
		units: wholeNumber('N', 'Drives of each run, 2 to 100 000. Default 500.', 500, [2, 100_000]),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless the requirement holds for the fresh drives once tuned.'),
		...workOptions,
	},
	remarks: [
		'For each sensing choice, one compensated delay and one advance for all drives and operating points. An error that all drives share can be taken out, the spread from drive to drive cannot. Angle errors stay measured against the advance that the scenario asks for. What is found is confirmed on fresh drives.',
		...workRemarks('it does not hold once tuned'),
	],
};

/** The `firmware` command. @param host where its workers come from */
export async function firmware(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
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
	const progress = stagedProgress(terminal);
	const result = await runFirmware(
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

	terminal.out(firmwareTable(result));
	if (values.json !== null) {
		try {
			writeJson(values.json, result);
		} catch (error) {
			terminal.err(`${values.json} could not be written: ${fileErrorWords(error)}\n`);
			return exitCodes.broken;
		}
	}
	if (result.provenance.partial) return exitCodes.interrupted;
	const holds = values.choice.every((choice) => result.choices[choice].confirmed?.after.verdict.decision === 'holds');
	return values.require && !holds ? exitCodes.notShown : exitCodes.done;
}
