import { changesBetween } from '../../shared/changes/changes-between.ts';
import { type KeptResult, readResult } from '../../shared/results/read-result.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { changesTable } from './changes-table.ts';
import { jsonOption } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type GateCheck, gateLines } from './gate.ts';
import { helpText } from './help.ts';
import { largestResult, readInput } from './input-file.ts';
import { outputProblems, writeJson, writeOutput } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';
import { requireOptions } from './work-options.ts';

const command = {
	name: 'changes',
	purpose: 'says what changed from one result of a study to another.',
	file: 'BEFORE.json',
	secondFile: 'AFTER.json',
	example: 'npm run --silent changes -- last-release.json this-release.json --no-worse',
	options: {
		choice: { ...requireOptions.choice, sentence: 'Whose verdict --no-worse asks for. Default both.' },
		'no-worse': {
			sentence:
				'Ends with 1 if a verdict got worse (from holds to undecided or fails, or from undecided to fails). What it found closes the output, in plain ASCII.',
			fallback: false,
		},
		json: jsonOption,
	},
	topics: {},
	remarks: [
		'Both files are those that `study --json` wrote. With the same seed, drive 1 is the same draw in both, and a change comes with the interval of pairs. A file of an older version may not hold its drives: its figures are then compared as they stand.',
		'Exit codes: 0 done; 1 done, --no-worse was given and a verdict got worse; 2 bad input, everything wrong with it is listed.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `changes` command. */
export async function changes(argv: readonly string[], terminal: Terminal): Promise<ExitCode> {
	const { file, secondFile, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(helpText(command, help));
		return exitCodes.done;
	}
	const before = await resultIn(file, command.file);
	const after = await resultIn(secondFile, command.secondFile);
	const problems = [
		...argumentProblems,
		...[file, secondFile].flatMap((input) => outputProblems('--json', values.json, input)).slice(0, 1),
		...('problems' in before ? before.problems : []),
		...('problems' in after ? after.problems : []),
	];
	if (problems.length > 0 || !('result' in before && 'result' in after)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	const found = changesBetween(before, after);
	terminal.out(changesTable(found));
	if (values.json !== null && !(await writeOutput(values.json, terminal, (path) => writeJson(path, found)))) {
		return exitCodes.broken;
	}
	if (!values['no-worse']) return exitCodes.done;
	const checks = values.choice.map((choice): GateCheck => {
		const { step, before: was, after: is } = found.verdicts[choice];
		return {
			name: `${choiceWords[choice]}: the verdict is not worse`,
			outcome: step === 'worse' ? 'fails' : 'holds',
			sentence: was === is ? `Before and after: ${is}.` : `Before: ${was}; after: ${is}.`,
		};
	});
	const code = checks.every(({ outcome }) => outcome === 'holds') ? exitCodes.done : exitCodes.notShown;
	terminal.out(gateLines(command.name, checks, after.result.provenance, code));
	return code;
}

/** The result in a file, or what is wrong with it; problems of its contents name the file. */
async function resultIn(
	path: string,
	fileWord: string,
): Promise<KeptResult | { readonly problems: readonly Problem[] }> {
	if (path === '') return { problems: [] };
	const input = readInput(path, fileWord, largestResult);
	if ('problems' in input) return input;
	const reading = await readResult(input.text);
	return 'problems' in reading
		? { problems: reading.problems.map((problem) => ({ ...problem, path: `${path}, ${problem.path}` })) }
		: reading;
}
