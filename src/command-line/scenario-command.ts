import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { CommandRecord, OptionRecord, OptionValues } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';
import type { workOptions } from './work-options.ts';

type Options = Readonly<Record<string, OptionRecord>> & typeof workOptions;

/** What a scenario and the options ask for, or what is wrong with them together. */
export type Asked<Request> = { readonly request: Request } | { readonly problems: readonly Problem[] };

/** What every run takes beside its request. */
interface Work<Shown> {
	readonly workers?: number | undefined;
	readonly signal: AbortSignal;
	readonly onProgress: (shown: Shown) => void;
}

/** One command that runs randomised drives of a scenario; what all of them do alike is in `scenarioCommand`. */
interface ScenarioCommand<Chosen extends Options, Request, Shown, Result> {
	readonly record: CommandRecord<Chosen>;
	/** What is wrong with the options whatever the scenario says. @param earlier what reading them has found */
	readonly optionProblems?: (values: OptionValues<Chosen>, earlier: readonly Problem[]) => readonly Problem[];
	/** @param isClean whether nothing else is wrong, so that costlier checks make sense */
	readonly ask: (scenario: Scenario, values: OptionValues<Chosen>, isClean: boolean) => Asked<Request>;
	readonly progress: (terminal: Terminal, request: Request) => { show: (shown: Shown) => void; clear: () => void };
	readonly run: (request: Request & Work<Shown>, host: WorkerHost) => Promise<Result>;
	readonly table: (result: Result) => string;
	/** Whether --require ends with 1. */
	readonly isNotShown?: (result: Result, values: OptionValues<Chosen>) => boolean;
}

/**
 * The command itself: reads the arguments and the scenario and lists everything
 * wrong with both, runs, prints, writes, and gives the exit code. An
 * interruption still reports what finished, marked partial.
 */
export function scenarioCommand<
	Chosen extends Options,
	Request,
	Shown,
	Result extends { readonly provenance: { readonly partial: boolean } },
>({ record, optionProblems, ask, progress, run, table, isNotShown }: ScenarioCommand<Chosen, Request, Shown, Result>) {
	/** @param host where its workers come from */
	return async (argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> => {
		const { file, values, help, problems: argumentProblems } = readArguments(argv, record);
		if (help) {
			terminal.out(help === 'parameters' ? parameterHelp() : commandHelp(record));
			return exitCodes.done;
		}
		const { json, workers } = values as OptionValues<typeof workOptions>;
		const input = file === '' ? { problems: [] } : readInput(file, record.file);
		const reading = 'text' in input ? readScenario(input.text) : input;
		const problems = [
			...argumentProblems,
			...(optionProblems?.(values, argumentProblems) ?? []),
			...outputProblems('--json', json, file),
		];
		const asked: Asked<Request> =
			'problems' in reading ? reading : ask(reading.scenario, values, problems.length === 0);
		if ('problems' in asked) problems.push(...asked.problems);
		if (problems.length > 0 || !('request' in asked)) {
			terminal.err(problemList(problems));
			return exitCodes.badInput;
		}

		const interruption = new AbortController();
		const stopListening = terminal.onInterrupt(() => interruption.abort());
		const line = progress(terminal, asked.request);
		const result = await run(
			{ ...asked.request, workers: workers ?? undefined, signal: interruption.signal, onProgress: line.show },
			host,
		);
		line.clear();
		stopListening();

		terminal.out(table(result));
		if (json !== null) {
			try {
				writeJson(json, result);
			} catch (error) {
				terminal.err(`${json} could not be written: ${fileErrorWords(error)}\n`);
				return exitCodes.broken;
			}
		}
		if (result.provenance.partial) return exitCodes.interrupted;
		return isNotShown?.(result, values) ? exitCodes.notShown : exitCodes.done;
	};
}
