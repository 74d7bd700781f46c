import { originsDrives, runOrigins } from '../host/run-origins.ts';
import { wholeNumber } from './common-options.ts';
import { originsTable } from './origins-table.ts';
import { askedAt, pointOption } from './point-option.ts';
import { progressLine } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { workOptions } from './work-options.ts';

const command = {
	name: 'origins',
	purpose: 'tells which parts and conditions the spread of the commutation angle comes from, for each sensing choice.',
	file: 'SCENARIO.json',
	example: 'npm run --silent origins -- scenarios/fan-24v.json --point rated --rows 500',
	options: {
		point: pointOption,
		rows: wholeNumber(
			'N',
			'Rows of the design, 20 to 100 000; each is a drive, another, and one more for every group that varies. It ends earlier where every share is known to within 1 %. Default 500.',
			500,
			[20, 100_000],
		),
		units: wholeNumber(
			'N',
			'Drives of the ordinary study that rank correlations come from, 0 to 1 000 000; 0 leaves them out. Default 1000.',
			1000,
			[0, 1_000_000],
		),
		...workOptions,
	},
	remarks: [
		"The spread is that of a drive's mean angle error in each of the six sector kinds, from noise-free crossings interpolated between readings, so that sampling does not hide the parts. “Alone” is the share that a group makes by itself (first-order index), “with interactions” what would stay if only it varied (total index).",
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `origins` command. */
export const origins = scenarioCommand({
	record: command,
	ask: (scenario, { point, seed, rows, units }) => askedAt(scenario, point, { seed, rows, units }),
	progress: (terminal, request) => progressLine(terminal, originsDrives(request)),
	run: runOrigins,
	table: originsTable,
});
