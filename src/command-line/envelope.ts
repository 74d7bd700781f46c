import { cornersOf, fewestCorners } from '../../shared/envelope/corners.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { count } from '../../shared/words/figures.ts';
import { runEnvelope } from '../host/run-envelope.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { wholeNumber } from './common-options.ts';
import { envelopeTable } from './envelope-table.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import { stagedProgress } from './staged-progress.ts';
import type { Terminal } from './terminal.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

/** Drives over all combinations: their columns are kept in memory. */
const mostDrives = 1_000_000;

const command = {
	name: 'envelope',
	purpose: 'runs every combination of the limits that a scenario states for its conditions, and names the worst.',
	file: 'SCENARIO.json',
	example: 'npm run --silent envelope -- scenarios/fan-24v.json --units 300',
	options: {
		units: wholeNumber('N', 'Drives at each combination, 1 to 100 000. Default 300.', 300, [1, 100_000]),
		combinations: wholeNumber(
			'N',
			'Combinations beyond which they are thinned to a regular fraction, 1 to 10 000. Default 512.',
			512,
			[1, 10_000],
		),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless it holds that enough drives pass at every combination.'),
		...workOptions,
	},
	remarks: [
		'Every condition with a range (speed, torque, bus voltage, ripple, temperatures) is taken at its low and its high limit, at every operating point; all combinations are judged on the same drives, moments and noise. Of a thinned envelope the worst is searched further, one limit at a time.',
		...workRemarks('too few drives are shown to pass at every combination'),
	],
};

/** The `envelope` command. @param host where its workers come from */
export async function envelope(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
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
		...('problems' in reading ? reading.problems : sizeProblems(reading.scenario, values)),
	];
	if (problems.length > 0 || !('scenario' in reading)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const interruption = new AbortController();
	const stopListening = terminal.onInterrupt(() => interruption.abort());
	const progress = stagedProgress(terminal);
	const result = await runEnvelope(
		{
			scenario: reading.scenario,
			seed: values.seed,
			units: values.units,
			combinations: values.combinations,
			workers: values.workers ?? undefined,
			signal: interruption.signal,
			onProgress: progress.show,
		},
		host,
	);
	progress.clear();
	stopListening();

	terminal.out(envelopeTable(result));
	if (values.json !== null) {
		try {
			writeJson(values.json, result);
		} catch (error) {
			terminal.err(`${values.json} could not be written: ${fileErrorWords(error)}\n`);
			return exitCodes.broken;
		}
	}
	if (result.provenance.partial) return exitCodes.interrupted;
	const holds = values.choice.every((choice) => result.everywhere[choice].verdict.decision === 'holds');
	return values.require && !holds ? exitCodes.notShown : exitCodes.done;
}

/** Too few combinations to thin to, or too many drives to keep in memory. */
function sizeProblems(
	scenario: Scenario,
	{ units, combinations }: { readonly units: number; readonly combinations: number },
): Problem[] {
	const { corners, possible } = cornersOf(scenario, combinations);
	const problems: Problem[] = [];
	if (combinations < possible && combinations < fewestCorners(scenario)) {
		problems.push({
			path: '--combinations',
			value: String(combinations),
			message: `is too few of the ${count(possible)} combinations of this scenario: a fraction of them has at least ${count(fewestCorners(scenario))}`,
		});
	}
	if (corners.length * units > mostDrives) {
		problems.push({
			path: '--units',
			value: String(units),
			message: `comes to ${count(corners.length * units)} drives over ${count(corners.length)} combinations; at most ${count(mostDrives)} are kept`,
		});
	}
	return problems;
}
