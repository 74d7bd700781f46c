import { count, power } from '../../shared/words/figures.ts';
import { type Baseline, type Changed, shownChange } from './baseline.ts';
import { type BenchResult, targets } from './bench-result.ts';
import { flatness, type Grown, memoryLimit } from './growth-bench.ts';
import type { KernelCounts } from './kernel-counts.ts';
import type { Machine } from './machine.ts';
import type { Spread } from './spread.ts';
import { type StartResult, startLimits } from './start-bench.ts';
import { leastUtilisation } from './utilisation.ts';

/** What every figure was measured on; text of at most 80 columns, as in all that follow. */
export function machineReport({ processor, cores, system, node, load }: Machine): string {
	return `${processor}, ${cores} cores, ${system}, Node ${node}, load ${load.toFixed(1)}\n`;
}

/** The engine's figures. */
export function engineReport(result: BenchResult): string {
	const { twoWorkers, overOdex, twoOverOne } = result;
	const slowest = Math.min(...result.scenarios.map(({ overFirst }) => overFirst.median));
	const grades = result.utilisations[0];
	const lines = [
		`Speed of the engine: ${result.scenario}`,
		`Medians of ${result.repetitions}, measured in turn; in brackets the least and the most.`,
		'',
		'PWM periods per second through the worker pool, both choices, warm-up counted',
		rate('one worker', result.oneWorker),
		rate('two workers', twoWorkers),
		line('two over one', ratio(twoOverOne, 2)),
		'',
		'Against odex on the differential equations: same drives, no noise, one thread,\nprocessor time',
		line('engine, a PWM period', nanoseconds(result.engineSeconds)),
		line('odex, a PWM period', nanoseconds(result.odexSeconds)),
		line('odex over engine', ratio(overOdex, 0)),
		line('odex’s tolerance', power(result.odexTolerance)),
		line('odex off the reference boards', `${power(result.odexDeviation)}° at most`),
		line(
			'sectors where the two differ',
			`${result.differing} of ${result.sectors}, by readings on a tie at that tolerance`,
		),
		'',
		'Every demo scenario, two workers, and its rate over that of the first',
		...result.scenarios.flatMap(({ name, rate: found, overFirst }) => [
			rate(name, found),
			line('', `${ratio(overFirst, 2)} the first`),
		]),
		'',
		'What a PWM period of each takes, both choices and warm-up counted',
		row('', Object.keys(countWords)),
		...result.scenarios.map(({ name, counts }) =>
			row(
				name,
				Object.keys(countWords).map((what) => counts[countWords[what] as keyof KernelCounts].toFixed(2)),
			),
		),
		'',
		'Cost of a PWM period with one setting changed, two workers',
		row('', ['a sector', 'ns', 'over as it is']),
		...result.costs.map(({ setting, periodsPerSector, rate: { median }, overPlain }) =>
			row(setting, [
				periodsPerSector.toFixed(0),
				(1e9 / median).toFixed(0),
				`${overPlain.median.toFixed(2)} (${overPlain.least.toFixed(2)}…${overPlain.most.toFixed(2)})`,
			]),
		),
		'',
		'How busy longer questions keep two workers',
		...result.utilisations.map(({ question, share, seconds }) =>
			line(question, `${percent(share)} of ${seconds.toFixed(1)} s`),
		),
		'',
		target('15 000 000 periods per second with two workers', twoWorkers.median >= targets.twoWorkers),
		target('1.9 times one worker with two', twoOverOne.median >= targets.twoOverOne),
		target('1000 times odex', overOdex.median >= targets.overOdex),
		target('odex within 0.005° of the reference boards', result.odexDeviation <= targets.odexDeviation),
		target('the slowest demo at least a third as fast as the first', slowest >= targets.slowest),
		...(grades ? [target('two workers 90 % busy over grades', grades.share >= leastUtilisation)] : []),
	];
	return `${lines.join('\n')}\n`;
}

/** How time and memory grow with the number of units. */
export function growthReport(grown: readonly Grown[]): string {
	const most = Math.max(...grown.map(({ memory }) => memory));
	const second = grown[1];
	const last = grown.at(-1);
	const lines = [
		'Growth: studies of the first demo’s last point, one start, shortest runs',
		row('drives', ['s', 'processor µs a further one', 'MB at most']),
		...grown.map(({ units, seconds, unitProcessor, memory }) =>
			row(count(units), [seconds.toFixed(1), (unitProcessor * 1e6).toFixed(0), (memory / 1e6).toFixed(0)]),
		),
		'',
		...(second && last && last !== second
			? [
					target(
						`a further drive of the largest within ${flatness} times one up to ${count(second.units)}`,
						last.unitProcessor <= flatness * second.unitProcessor,
					),
				]
			: []),
		target(`under ${memoryLimit / 1e6} MB`, most < memoryLimit),
	];
	return `${lines.join('\n')}\n`;
}

/** How long one waits from the command to the answer. */
export function startReport({ node, study, studyOverNode, start, startOverNode }: StartResult): string {
	const seconds = ({ median, least, most }: Spread): string =>
		`${median.toFixed(2)} s (${least.toFixed(2)} … ${most.toFixed(2)})`;
	const lines = [
		'Start: on the clock, process start included, all built before',
		line('Node with nothing to do', seconds(node)),
		line('study, 1000 drives, one point', `${seconds(study)}, ${studyOverNode.median.toFixed(1)} times Node`),
		line('npm start, second run', `${seconds(start)}, ${startOverNode.median.toFixed(1)} times Node`),
		'',
		target(`study within ${startLimits.study} s`, study.median <= startLimits.study),
		target(`npm start within ${startLimits.start} s`, start.median <= startLimits.start),
	];
	return `${lines.join('\n')}\n`;
}

/** What differs from the run that was kept. */
export function changesReport(baseline: Baseline, changed: readonly Changed[], compared: number): string {
	const lines = [
		`Against the baseline (${baseline.machine.processor}, load ${baseline.machine.load.toFixed(1)}): ${compared} ratios and counts, ${changed.length} of them`,
		`changed by more than ${percent(shownChange)}`,
		...changed.map(
			({ name, before, now }) =>
				`  ${name}: ${before.toPrecision(3)} → ${now.toPrecision(3)} (${now > before ? '+' : '−'}${percent(Math.abs(now / before - 1))})`,
		),
	];
	return `${lines.join('\n')}\n`;
}

/** Column heads, and the counts under them. */
const countWords: Readonly<Record<string, keyof KernelCounts>> = {
	segments: 'segments',
	events: 'events',
	readings: 'readings',
	exps: 'exponentials',
	draws: 'draws',
};

const line = (label: string, figure: string): string => `  ${label.padEnd(31)}${figure}`;

const row = (label: string, cells: readonly string[]): string =>
	`  ${label.padEnd(29)}${cells.map((cell) => ` ${cell.padStart(cells.length > 3 ? 8 : 15)}`).join('')}`.trimEnd();

const rate = (label: string, { median, least, most }: Spread): string =>
	line(
		label,
		`${count(rounded(median)).padStart(10)} /s (${count(rounded(least))} … ${count(rounded(most))}), ${(1e9 / median).toFixed(0)} ns each`,
	);

const nanoseconds = ({ median, least, most }: Spread): string => {
	const [middle, low, high] = [median, least, most].map((seconds) => count(seconds * 1e9));
	return `${middle} ns (${low} … ${high})`;
};

const ratio = ({ median, least, most }: Spread, decimals: number): string =>
	`${median.toFixed(decimals)} times (${least.toFixed(decimals)} … ${most.toFixed(decimals)})`;

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** Three digits are what such a measurement is good for. */
const rounded = (value: number): number => Number(value.toPrecision(3));

const target = (what: string, reached: boolean): string => `${reached ? 'reached' : 'NOT REACHED'}: ${what}`;
