import type { Grade } from '../../shared/grades/grade.ts';
import { type GradeProblem, readGrades } from '../../shared/grades/read-grades.ts';
import { readPrices } from '../../shared/grades/read-prices.ts';
import { type AskedGroup, groupWords, resistorCount } from '../../shared/grades/resistor-groups.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { runGrades } from '../host/run-grades.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { text, wholeNumber, word } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';
import { gradesTable } from './grades-table.ts';
import { commandHelp, parameterHelp } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import { stagedProgress } from './staged-progress.ts';
import type { Terminal } from './terminal.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

const command = {
	name: 'grades',
	purpose: 'tells which tolerance grade of the sensing resistors is enough for what the scenario requires.',
	file: 'SCENARIO.json',
	example: 'npm run --silent grades -- scenarios/fan-24v.json --grades "5 %, 1 %, 0.1 %"',
	options: {
		group: word<AskedGroup, AskedGroup>(
			{ divider: 'divider', busDivider: 'busDivider', star: 'star', all: 'all' },
			'Resistors to be graded: phase dividers, bus divider, star, or all of them. Default all.',
			'all',
		),
		grades: text(
			'LIST',
			'Grades, separated by commas: "1 %", with another series than the usual one "1 % E24" or "1 % E24+E96", an array by absolute and ratio tolerance "array 1 %/0.1 %". Default 5 %, 2 %, 1 %, 0.5 %, 0.1 %.',
			'5 %, 2 %, 1 %, 0.5 %, 0.1 %',
			400,
		),
		prices: text(
			'LIST',
			'Price of one resistor in each grade, in the same order, in any unit of money: "0.2, 0.3, 0.5". With group all, the cheapest mix over the groups is sought too.',
			null,
			400,
		),
		units: wholeNumber('N', 'Drives in each run, 1 to 1 000 000. Default 1000.', 1000, [1, 1_000_000]),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless a grade holds and fresh drives confirm one.'),
		...workOptions,
	},
	remarks: [
		'Usual series: 20 % E6, 10 % E12, 5 % E24, 2 % E48, 1 % E96, tighter E192; an array goes by its absolute tolerance.',
		...workRemarks('no grade is confirmed'),
	],
};

/** The `grades` command. @param host where its workers come from */
export async function grades(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
	const { file, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(help === 'parameters' ? parameterHelp() : commandHelp(command));
		return exitCodes.done;
	}
	const input = file === '' ? { problems: [] } : readInput(file, command.file);
	const reading = 'text' in input ? readScenario(input.text) : input;
	const offer = readOffer(values.grades, values.prices);
	const concerned = values.choice.filter((choice) => resistorCount(values.group, choice) > 0);
	const problems = [
		...argumentProblems,
		...('problems' in offer ? offer.problems : []),
		...(concerned.length === 0
			? [{ path: '--choice', value: '', message: `names a board without resistors of the ${groupWords[values.group]}` }]
			: []),
		...outputProblems('--json', values.json, file),
		...('problems' in reading ? reading.problems : []),
	];
	if (problems.length > 0 || !('scenario' in reading) || !('grades' in offer)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const interruption = new AbortController();
	const stopListening = terminal.onInterrupt(() => interruption.abort());
	const progress = stagedProgress(terminal);
	const result = await runGrades(
		{
			scenario: reading.scenario,
			group: values.group,
			grades: offer.grades,
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

	terminal.out(gradesTable(result));
	if (values.json !== null) {
		try {
			writeJson(values.json, result);
		} catch (error) {
			terminal.err(`${values.json} could not be written: ${fileErrorWords(error)}\n`);
			return exitCodes.broken;
		}
	}
	if (result.provenance.partial) return exitCodes.interrupted;
	const isConfirmed = concerned.every((choice) =>
		[result.enough, result.enoughOfArrays].some((kind) => (kind?.[choice].confirmed ?? null) !== null),
	);
	return values.require && !isConfirmed ? exitCodes.notShown : exitCodes.done;
}

/** Grades with their prices, or everything that is wrong with either. */
function readOffer(
	gradesText: string,
	pricesText: string | null,
): { readonly grades: readonly Grade[] } | { readonly problems: readonly Problem[] } {
	const reading = readGrades(gradesText);
	const written = 'grades' in reading ? reading.grades : null;
	const prices = pricesText === null ? null : readPrices(pricesText, written?.length ?? null);
	const problems = [
		...('problems' in reading ? reading.problems.map(at('--grades')) : []),
		...(prices !== null && 'problems' in prices ? prices.problems.map(at('--prices')) : []),
	];
	if (written === null || problems.length > 0) return { problems };
	const list = prices !== null && 'prices' in prices ? prices.prices : [];
	return { grades: written.map((grade, i) => ({ ...grade, price: list[i] ?? null })) };
}

const at =
	(path: string) =>
	({ value, message }: GradeProblem): Problem => ({ path, value, message });
