import { count, power } from '../../shared/words/figures.ts';
import { type BenchResult, targets } from './bench-result.ts';
import type { Spread } from './spread.ts';

/** The bench's figures as text of at most 80 columns. */
export function report(result: BenchResult): string {
	const { machine, twoWorkers, overOdex } = result;
	const lines = [
		`Speed of the engine: ${result.scenario}`,
		`${machine.processor}, ${machine.cores} cores, ${machine.system}, Node ${machine.node}, load ${machine.load.toFixed(1)}`,
		`Medians of ${result.repetitions}, measured in turn; in brackets the least and the most.`,
		'',
		'PWM periods per second through the worker pool, both choices, warm-up counted',
		rate('one worker', result.oneWorker),
		rate('two workers', twoWorkers),
		line('two over one', ratio(result.twoOverOne, 2)),
		'',
		'Against odex on the differential equations: same drives, no noise, one thread,\nprocessor time',
		line('engine, a PWM period', nanoseconds(result.engineSeconds)),
		line('its segments, diode events', `${result.segments.toFixed(2)} and ${result.events.toFixed(2)} a PWM period`),
		line('odex, a PWM period', nanoseconds(result.odexSeconds)),
		line('odex over engine', ratio(overOdex, 0)),
		line('odex’s tolerance', power(result.odexTolerance)),
		line('odex off the reference boards', `${power(result.odexDeviation)}° at most`),
		line(
			'sectors where the two differ',
			`${result.differing} of ${result.sectors}, by readings on a tie at that tolerance`,
		),
		'',
		'Every demo scenario, two workers',
		...result.scenarios.map(({ name, rate: found }) => rate(name, found)),
		'',
		target('4 000 000 periods per second with two workers', twoWorkers.median >= targets.twoWorkers),
		target('100 times odex', overOdex.median >= targets.overOdex),
		target('odex within 0.005° of the reference boards', result.odexDeviation <= targets.odexDeviation),
	];
	return `${lines.join('\n')}\n`;
}

const line = (label: string, figure: string): string => `  ${label.padEnd(31)}${figure}`;

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

/** Three digits are what such a measurement is good for. */
const rounded = (value: number): number => Number(value.toPrecision(3));

const target = (what: string, reached: boolean): string => `${reached ? 'reached' : 'NOT REACHED'}: ${what}`;
