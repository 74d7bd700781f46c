import { cornersOf, fewestCorners } from '../../shared/envelope/corners.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { count } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { runEnvelope } from '../host/run-envelope.ts';
import { wholeNumber } from './common-options.ts';
import { envelopeTable } from './envelope-table.ts';
import { verdictCheck } from './gate.ts';
import { stagedProgress } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
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
		'test-report': requireOptions['test-report'],
		...workOptions,
	},
	remarks: [
		'Every condition with a range (speed, torque, bus voltage, ripple, temperatures) is taken at its low and its high limit, at every operating point; all combinations are judged on the same drives, moments and noise. Of a thinned envelope the worst is searched further, one limit at a time.',
		...workRemarks('too few drives are shown to pass at every combination'),
	],
};

/** The `envelope` command. */
export const envelope = scenarioCommand({
	record: command,
	ask(scenario, values) {
		const problems = sizeProblems(scenario, values);
		const { seed, units, combinations } = values;
		return problems.length > 0 ? { problems } : { request: { scenario, seed, units, combinations } };
	},
	progress: stagedProgress,
	run: runEnvelope,
	table: envelopeTable,
	gate: (result, { choice }) =>
		choice.map((one) =>
			verdictCheck(`${choiceWords[one]} holds at every combination of limits`, result.everywhere[one].verdict),
		),
});

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
