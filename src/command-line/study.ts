import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { StoppingRule } from '../../shared/study/stopping-rule.ts';
import { runStudy } from '../host/run-study.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { OptionRecord } from './command.ts';
import { jsonOption, text, wholeNumber, word } from './common-options.ts';
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
		units: wholeNumber(
			'N',
			'Drives to simulate, 1 to 10 000 000; with --until, the most there may be. Default 1000; 20 000 until decided, 100 000 until settled.',
			null,
			[1, 10_000_000],
		),
		until: word(
			{ decided: 'decided', settled: 'settled' } as const,
			'Ends the study when the verdict is decided, looked at after 100 drives, 125, 157 and so on; or when mean, standard deviation and 95 % limits of the drives’ errors stand still (JCGM 101, 7.9, batches of 10 000 drives).',
			null,
		),
		digits: wholeNumber(
			'N',
			'Significant digits of the standard deviation that must stand still until settled, 1 to 4. Default 1.',
			null,
			[1, 4],
		),
		choice: word(
			{
				'half-bus': ['halfBus'],
				'virtual-neutral': ['virtualNeutral'],
				both: choiceNames,
			} as Readonly<Record<string, readonly ChoiceName[]>>,
			'Whose verdict --until decided waits for and --require asks for. Default both.',
			choiceNames as readonly ChoiceName[],
		),
		require: {
			sentence: 'Ends with 1 unless the verdict is “holds”.',
			fallback: false,
		} as OptionRecord<boolean>,
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
		'The scenario says under “requirement” what a drive must keep, what share of drives must keep it and with what confidence it must be shown.',
		'Exit codes: 0 done; 1 done, --require was given and the verdict is not “holds”; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** Number of drives, or the most there may be, where it is not given. */
const defaultUnits = { number: 1000, decided: 20_000, settled: 100_000 };

function stoppingRule(values: {
	readonly until: 'decided' | 'settled' | null;
	readonly digits: number | null;
	readonly choice: readonly ChoiceName[];
}): StoppingRule {
	if (values.until === 'decided') return { rule: 'decided', choices: values.choice };
	return values.until === 'settled' ? { rule: 'settled', digits: values.digits ?? 1 } : { rule: 'number' };
}

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
		...(values.digits !== null && values.until !== 'settled'
			? [{ path: '--digits', value: String(values.digits), message: 'goes with --until settled' }]
			: []),
		...outputProblems('--json', values.json, file),
		...('problems' in reading ? reading.problems : []),
	];
	if (problems.length > 0 || !('scenario' in reading)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const interruption = new AbortController();
	const stopListening = terminal.onInterrupt(() => interruption.abort());
	const until = stoppingRule(values);
	const units = values.units ?? defaultUnits[until.rule];
	const progress = progressLine(terminal, units, until.rule !== 'number');
	const result = await runStudy(
		{
			scenario: reading.scenario,
			seed: values.seed,
			units,
			until,
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
	if (result.provenance.partial) return exitCodes.interrupted;
	const holds = values.choice.every((choice) => result.verdict[choice].decision === 'holds');
	return values.require && !holds ? exitCodes.notShown : exitCodes.done;
}
