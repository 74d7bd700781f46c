import { writeFileSync } from 'node:fs';
import { longestWindow } from '../../shared/drive/sensing/acceptance-chain.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { judgesByChances } from '../../shared/scenario/warnings.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { CommandRecord, OptionRecord, OptionValues } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type GateCheck, type GateGround, gateLines } from './gate.ts';
import { helpText } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, sameFileProblems, writeJson, writeOutput } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';
import { testReport } from './test-report.ts';
import { idleChoice, type workOptions } from './work-options.ts';
import { wrapText } from './wrap-text.ts';

type Options = Readonly<Record<string, OptionRecord>> & typeof workOptions;

/** What a scenario and the options ask for, or what is wrong with them together. */
export type Asked<Request> = AskedWork<Request> | { readonly problems: readonly Problem[] };

interface AskedWork<Request> {
	readonly request: Request;
	/** What there is to say before the work begins. */
	readonly remarks?: readonly string[];
}

/** What every run takes beside its request. */
interface Work<Shown> {
	readonly workers?: number | undefined;
	readonly signal: AbortSignal;
	readonly onProgress: (shown: Shown) => void;
}

/** Writes a result to a file of its own kind; throws where it cannot be made or the disk does not take it. */
type FileWriter<Request, Result> = (
	path: string,
	result: Result,
	request: Request,
	scenarioText: string,
) => void | Promise<void>;

/** One command that runs randomised drives of a scenario; what all of them do alike is in `scenarioCommand`. */
interface ScenarioCommand<Chosen extends Options, Request, Shown, Result> {
	readonly record: CommandRecord<Chosen>;
	/** What is wrong with the options whatever the scenario says. @param earlier what reading them has found */
	readonly optionProblems?: (values: OptionValues<Chosen>, earlier: readonly Problem[]) => readonly Problem[];
	/** @param isClean whether nothing else is wrong, so that costlier checks make sense */
	readonly ask: (
		scenario: Scenario,
		values: OptionValues<Chosen>,
		isClean: boolean,
		host: WorkerHost,
	) => Asked<Request> | Promise<Asked<Request>>;
	readonly progress: (terminal: Terminal, request: Request) => { show: (shown: Shown) => void; clear: () => void };
	readonly run: (request: Request & Work<Shown>, host: WorkerHost) => Promise<Result>;
	readonly table: (result: Result) => string;
	/** Files written beside --json, each where the option of its name says. */
	readonly files?: { readonly [Option in keyof Chosen]?: FileWriter<Request, Result> };
	/** What there is to say of the files that were written. */
	readonly afterwards?: (result: Result, values: OptionValues<Chosen>) => readonly string[];
	/** Whether an interruption came after the result was there, before all that its files hold was. */
	readonly isCutShort?: (result: Result) => boolean;
	/** What --require asks for: with it, the command ends with 1 unless all of it holds. */
	readonly gate?: (result: Result, values: OptionValues<Chosen>) => readonly GateCheck[];
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
	Result extends { readonly provenance: GateGround },
>({
	record,
	optionProblems,
	ask,
	progress,
	run,
	table,
	files,
	afterwards,
	isCutShort = () => false,
	gate,
}: ScenarioCommand<Chosen, Request, Shown, Result>) {
	/** @param host where its workers come from */
	return async (argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> => {
		const { file, values, help, problems: argumentProblems } = readArguments(argv, record);
		if (help) {
			terminal.out(helpText(record, help));
			return exitCodes.done;
		}
		const { workers } = values as OptionValues<typeof workOptions>;
		const writers: Readonly<Record<string, FileWriter<Request, Result> | undefined>> = {
			json: writeJson,
			...files,
			'test-report': (path, result) =>
				writeFileSync(path, testReport(record.name, gate?.(result, values) ?? [], result.provenance)),
		};
		const outputs = Object.entries(writers).flatMap(([option, write]) => {
			const path = (values as Readonly<Record<string, unknown>>)[option];
			return write && typeof path === 'string' ? [{ option: `--${option}`, path, write }] : [];
		});
		const input = file === '' ? { problems: [] } : readInput(file, record.file);
		const reading = 'text' in input ? readScenario(input.text) : input;
		const problems = [
			...argumentProblems,
			...(optionProblems?.(values, argumentProblems) ?? []),
			...(gate ? idleChoice(values as Parameters<typeof idleChoice>[0]) : []),
			...outputs.flatMap(({ option, path }) => outputProblems(option, path, file)),
			...outputs.flatMap(({ option, path }, place) => sameFileProblems(option, path, outputs.slice(0, place))),
		];
		const asked: Asked<Request> =
			'problems' in reading ? reading : await ask(reading.scenario, values, problems.length === 0, host);
		if ('problems' in asked) problems.push(...asked.problems);
		const isRequired = (values as { readonly require?: boolean }).require === true;
		const isReported = outputs.some(({ option }) => option === '--test-report');
		const gateAsked = isRequired ? '--require' : isReported ? '--test-report' : null;
		if (gateAsked !== null && 'scenario' in reading && !judgesByChances(reading.scenario)) {
			problems.push({
				path: gateAsked,
				value: '',
				message: `cannot be answered with detection.majorityWindow above ${longestWindow}: no chances are computed then, and the hourly limit cannot be shown to hold`,
			});
		}
		if (problems.length > 0 || !('request' in asked)) {
			terminal.err(problemList(problems));
			return exitCodes.badInput;
		}

		for (const remark of asked.remarks ?? []) terminal.err(`${wrapText(remark)}\n`);
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
		const text = 'text' in input ? input.text : '';
		let isWritten = true;
		for (const { path, write } of outputs) {
			isWritten = (await writeOutput(path, terminal, () => write(path, result, asked.request, text))) && isWritten;
		}
		for (const remark of afterwards?.(result, values) ?? []) terminal.err(`${wrapText(remark)}\n`);
		const checks = isRequired ? (gate?.(result, values) ?? []) : [];
		const code =
			result.provenance.partial || isCutShort(result)
				? exitCodes.interrupted
				: !isWritten
					? exitCodes.broken
					: checks.every(({ outcome }) => outcome === 'holds')
						? exitCodes.done
						: exitCodes.notShown;
		if (isRequired) terminal.out(gateLines(record.name, checks, result.provenance, code));
		return code;
	};
}
