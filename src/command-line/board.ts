import { setImmediate } from 'node:timers/promises';
import { readBoards } from '../../shared/scenario/read-boards.ts';
import { type BoardResult, runBoard } from './board-run.ts';
import { boardTable } from './board-table.ts';
import { jsonOption } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { helpText } from './help.ts';
import { readInput } from './input-file.ts';
import { outputProblems, writeJson, writeOutput } from './output-file.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import type { Terminal } from './terminal.ts';

const command = {
	name: 'board',
	purpose: 'simulates given boards, for example with the values measured on them.',
	file: 'BOARDS.json',
	example: 'npm run --silent board -- boards.json --json out.json --readings',
	options: {
		readings: {
			sentence: 'Also give the duties, the torque of every sector and the readings of the last three sectors.',
			fallback: false,
		},
		json: jsonOption,
	},
	remarks: [
		'BOARDS.json holds {"cases": [{"case": 1, "parameters": {…}, "deviations": {…}}, …]}, both by parameter id. Deviations are relative, but degrees for placement and flat top and volts for the offset; a list has one value for each phase. What is not named has its default, or no deviation. A run has no noise.',
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `board` command. */
export async function board(argv: readonly string[], terminal: Terminal): Promise<ExitCode> {
	const { file, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(helpText(command, help));
		return exitCodes.done;
	}
	const input = file === '' ? { problems: [] } : readInput(file, command.file);
	const reading = 'text' in input ? readBoards(input.text) : input;
	const problems = [
		...argumentProblems,
		...outputProblems('--json', values.json, file),
		...('problems' in reading ? reading.problems : []),
	];
	if (problems.length > 0 || !('boards' in reading)) {
		terminal.err(problemList(problems));
		return exitCodes.badInput;
	}

	let isInterrupted = false;
	const stopListening = terminal.onInterrupt(() => {
		isInterrupted = true;
	});
	const boards: BoardResult[] = [];
	for (const one of reading.boards) {
		await setImmediate(); // lets an interruption be seen between boards
		if (isInterrupted) break;
		boards.push(runBoard(one, values.readings));
	}
	stopListening();

	terminal.out(boardTable(boards, reading.unused));
	if (isInterrupted)
		terminal.err(`PARTIAL RESULT: interrupted after ${boards.length} of ${reading.boards.length} boards.\n`);
	if (values.json !== null && !(await writeOutput(values.json, terminal, (path) => writeJson(path, { boards })))) {
		return exitCodes.broken;
	}
	return isInterrupted ? exitCodes.interrupted : exitCodes.done;
}
