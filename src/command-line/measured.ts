import { type MeasuredDrive, readLog } from '../../shared/measured/read-log.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { runMeasured } from '../host/run-measured.ts';
import { text, wholeNumber } from './common-options.ts';
import { largestResult, readInput } from './input-file.ts';
import { measuredTable } from './measured-table.ts';
import { askedAt, pointOption } from './point-option.ts';
import { progressLine } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { workOptions } from './work-options.ts';

const command = {
	name: 'measured',
	purpose: 'lays sector intervals measured on real hardware against the predicted ones.',
	file: 'SCENARIO.json',
	example: 'npm run --silent measured -- scenarios/fan-24v.json --log intervals.csv',
	options: {
		log: text('FILE.csv', 'The log, with a header that names its columns.', null, 4096),
		point: pointOption,
		units: wholeNumber('N', 'Drives to simulate, 40 to 20 000. Default 300.', 300, [40, 20_000]),
		...workOptions,
	},
	remarks: [
		'The log has a row a sector, in the order they were commutated: column “drive” names the drive, “interval” is the time since the commutation before, in any unit; column “run” tells runs of one drive apart. Other columns are left alone. Of each drive the longest run counts, of all drives equally many intervals, at most 240.',
		'What a test of fit cannot do: it shows that two distributions differ, never that they agree; a few drives notice large differences alone; and a difference has many causes, a tolerance guessed wrong as much as what the model leaves out. The speed of a real drive also swings within a revolution, which the model does not know, and a coarse timer makes steps.',
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `measured` command. */
export const measured = scenarioCommand({
	record: command,
	optionProblems: ({ log }, earlier) =>
		log === null && earlier.every(({ path }) => path !== '--log')
			? [{ path: '--log', value: '', message: 'is missing: name the file with the measured intervals' }]
			: [],
	ask(scenario, { log, point, seed, units }) {
		const drives = log === null ? [] : drivesIn(log);
		const asked = askedAt(scenario, point, { seed, units, drives: 'problems' in drives ? [] : drives });
		const problems = [...('problems' in drives ? drives.problems : []), ...('problems' in asked ? asked.problems : [])];
		return problems.length > 0 ? { problems } : asked;
	},
	progress: (terminal, { units }) => progressLine(terminal, units),
	run: runMeasured,
	table: measuredTable,
});

function drivesIn(path: string): readonly MeasuredDrive[] | { readonly problems: readonly Problem[] } {
	const input = readInput(path, '--log', largestResult);
	if ('problems' in input) return input;
	const reading = readLog(input.text);
	return 'drives' in reading
		? reading.drives
		: { problems: reading.problems.map((problem) => ({ ...problem, path: `${path}, ${problem.path}` })) };
}
