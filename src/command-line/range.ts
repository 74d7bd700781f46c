import type { Axis } from '../../shared/range/axis.ts';
import { readAxis } from '../../shared/range/read-axis.ts';
import { type LoadLine, loadLines, placeWords, settingProblems, settingsOf } from '../../shared/range/setting.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { count } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { runRange } from '../host/run-range.ts';
import type { OptionRecord } from './command.ts';
import { text, wholeNumber } from './common-options.ts';
import { verdictCheck } from './gate.ts';
import { pointNamed } from './point-option.ts';
import { stagedProgress } from './progress-line.ts';
import { rangeTable } from './range-table.ts';
import { scenarioCommand } from './scenario-command.ts';
import { shareOption } from './share-option.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

/** Drives at a point, all values together: their columns are kept in memory. */
const mostDrives = 1_000_000;

const over: OptionRecord<readonly Axis[]> = {
	placeholder: 'PARAMETER=FROM..TO/STEPS',
	sentence:
		'The parameter and the values it takes, both ends included; “/STEPS log” for logarithmic steps, one value alone without “..”. Give it twice to vary two.',
	repeats: 2,
	fallback: [],
	read(written) {
		const reading = readAxis(written);
		return 'axis' in reading ? { value: [reading.axis] } : { problem: reading.problems.join('; it ') };
	},
};

const load: OptionRecord<LoadLine> = {
	placeholder: loadLines.join('|'),
	sentence:
		"How the torque goes with a speed that is varied without it, through the point's own: as the square of the speed (default), or constant.",
	fallback: 'square',
	read: (written) => {
		const value = loadLines.find((one) => one === written);
		return value === undefined ? { problem: `must be ${loadLines.join(' or ')}` } : { value };
	},
};

const command = {
	name: 'range',
	purpose: 'shows where a design stops working, over speed, torque, bus, temperature or any numeric parameter.',
	file: 'SCENARIO.json',
	example: 'npm run -s range -- scenarios/fan-24v.json --over operation.speed=600..3000/7',
	options: {
		over,
		point: text(
			'NAME',
			"The only operating point to run. Default: the scenario's reference point for speed and torque, else all points.",
			null,
			200,
		),
		load,
		units: wholeNumber(
			'N',
			'Drives at each value, 1 to 1 000 000; a value at which the requirement fails for certain ends earlier. Default 500.',
			500,
			[1, 1_000_000],
		),
		resolution: shareOption(
			'SHARE',
			'Share of the speed down to which the slowest one that holds is narrowed, 0.01 % to 50 %. Default 1 %.',
			0.01,
			[1e-4, 0.5],
		),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless the requirement holds at every value asked for.'),
		'test-report': requireOptions['test-report'],
		...workOptions,
	},
	remarks: [
		'All values are judged on the same drives, moments and noise. A condition is set at the point run; the firmware keeps the delay compensation of the scenario. Any other parameter is set in common, and where the compensation is nominal, each value gets its own.',
		...workRemarks('it does not hold at every value'),
	],
};

/** The `range` command. */
export const range = scenarioCommand({
	record: command,
	optionProblems: (values, earlier) => axisProblems(values.over, earlier),
	ask(scenario, values, isClean) {
		const { over: axes, load: line, seed, units, resolution } = values;
		const place = placeOf(scenario, axes, values.point);
		if ('problem' in place) return { problems: [place.problem] };
		const { point } = place;
		const problems = isClean ? valueProblems({ scenario, point, load: line, over: axes, units }) : [];
		return problems.length > 0
			? { problems }
			: { request: { scenario, point, axes, load: line, seed, units, resolution } };
	},
	progress: stagedProgress,
	run: runRange,
	table: rangeTable,
	gate: (result, { choice }) =>
		choice.flatMap((one) =>
			result.values
				.filter(({ isSearched }) => !isSearched)
				.map(({ at, choices }) => verdictCheck(`${choiceWords[one]} holds at ${placeWords(at)}`, choices[one].verdict)),
		),
});

/** One parameter or two, and not the same one. */
function axisProblems(axes: readonly Axis[], earlier: readonly Problem[]): Problem[] {
	const ids = axes.map(({ record }) => record.id);
	const wrong = (value: string, message: string): Problem[] => [{ path: '--over', value, message }];
	if (ids.length === 0) {
		if (earlier.some(({ path }) => path === '--over')) return [];
		return wrong('', 'is missing: name a parameter and its values, such as "operation.speed=600 rpm..3000 rpm/7"');
	}
	return ids[0] === ids[1] ? wrong(ids[0] ?? '', 'is named twice') : [];
}

/** A speed or torque belongs to one operating point, anything else to all of them. */
function placeOf(
	scenario: Scenario,
	axes: readonly Axis[],
	name: string | null,
): { readonly point: number | null } | { readonly problem: Problem } {
	const isOfOnePoint = axes.some(({ record }) => record.stated);
	return name === null && !isOfOnePoint ? { point: null } : pointNamed(scenario, name);
}

/** What keeps some values from being simulated, or all of them from being kept in memory. */
function valueProblems(asked: {
	readonly scenario: Scenario;
	readonly point: number | null;
	readonly load: LoadLine;
	readonly over: readonly Axis[];
	readonly units: number;
}): Problem[] {
	const settings = settingsOf(asked.over);
	const points = asked.point === null ? asked.scenario.points.length : 1;
	const drives = settings.length * points * asked.units;
	const tooMany: Problem[] =
		drives > mostDrives
			? [
					{
						path: '--units',
						value: String(asked.units),
						message: `comes to ${count(drives)} drives at a point over ${count(settings.length)} values; at most ${count(mostDrives)} are kept`,
					},
				]
			: [];
	return [...tooMany, ...settings.flatMap((setting) => settingProblems(asked, setting))];
}
