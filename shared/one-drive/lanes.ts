import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { roundMarks } from '../maths/round-marks.ts';
import { withMinus } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { type DriveWindow, readingStride, type TraceName } from './drive-window.ts';
import { readingStates } from './replay-detection.ts';

/** One strip of the picture: traces over a common scale, and what else is drawn in it. */
export interface Lane {
	readonly name: string;
	readonly title: string;
	/** What it is about where its traces are named beside it. */
	readonly subject: string;
	readonly unit: 'V' | 'A' | 'N·m' | 'votes';
	/** Of which choice its readings and marks are; null where it has none. */
	readonly marks: ChoiceName | null;
	readonly top: number;
	readonly height: number;
	readonly low: number;
	readonly high: number;
	readonly ticks: readonly number[];
	/** Paths over column (0 … columns) and pixel from the picture's top. */
	readonly paths: readonly { readonly trace: TraceName; readonly words: string; readonly d: string }[];
}

interface LanePlan {
	readonly name: string;
	readonly title: (choice: ChoiceName) => string;
	/** The title without the names of its traces, where it says them. */
	readonly subject?: (choice: ChoiceName) => string;
	readonly unit: Lane['unit'];
	readonly traces: readonly TraceName[];
	/** Whose traces: a choice's own, or the one that is picked. */
	readonly of: ChoiceName | 'picked';
	readonly height: number;
	/** Zero is in the picture. */
	readonly fromZero?: boolean;
}

const senses = choiceNames.flatMap((choice): LanePlan[] => [
	{
		name: `${choice} sense`,
		title: () => `${choiceWords[choice]}: sense node against threshold`,
		subject: () => choiceWords[choice],
		unit: 'V',
		traces: ['sense', 'threshold'],
		of: choice,
		height: 112,
	},
	{ name: `${choice} votes`, title: () => 'votes', unit: 'votes', traces: [], of: choice, height: 26 },
]);
const terminals = (['A', 'B', 'C'] as const).map(
	(phase): LanePlan => ({
		name: `terminal ${phase}`,
		title: (choice) => `terminal ${phase.toLowerCase()}${phase === 'A' ? `, ${choiceWords[choice]}` : ''}`,
		unit: 'V',
		traces: [`terminal${phase}`],
		of: 'picked',
		height: 46,
		fromZero: true,
	}),
);
/** What each trace is called beside others in its lane. */
const traceWords: Readonly<Record<TraceName, string>> = {
	sense: 'sense',
	threshold: 'threshold',
	terminalA: 'a',
	terminalB: 'b',
	terminalC: 'c',
	currentA: 'a',
	currentB: 'b',
	currentC: 'c',
	torque: 'torque',
};
const plans: readonly LanePlan[] = [
	...senses,
	...terminals,
	{
		name: 'currents',
		title: () => 'winding currents a, b, c',
		subject: () => 'winding currents',
		unit: 'A',
		traces: ['currentA', 'currentB', 'currentC'],
		of: 'picked',
		height: 84,
		fromZero: true,
	},
	{ name: 'torque', title: () => 'torque', unit: 'N·m', traces: ['torque'], of: 'picked', height: 54, fromZero: true },
];

/** Room above each lane for its title, px. */
const titleHeight = 20;

/** All lanes from top to bottom. @param picked the choice whose terminals, currents and torque are shown */
export function lanesOf(window: DriveWindow, picked: ChoiceName, from: number): readonly Lane[] {
	let top = from;
	return plans.map((plan): Lane => {
		const choice = plan.of === 'picked' ? picked : plan.of;
		const { traces } = window.runs[choice];
		const [low, high] =
			plan.unit === 'votes'
				? [0, window.votes[1]]
				: ((plan.of === 'picked' ? null : limitsOfVotes(window.runs[choice].readings)) ??
					limits(
						plan.traces.map((trace) => traces[trace]),
						plan.fromZero === true,
					));
		const at = top + titleHeight;
		top = at + plan.height;
		const scale = plan.height / (high - low);
		const y = (value: number): number => at + plan.height - (value - low) * scale;
		return {
			name: plan.name,
			title: withUnit(plan.title(choice), plan.unit),
			subject: withUnit((plan.subject ?? plan.title)(choice), plan.unit),
			unit: plan.unit,
			marks: plan.of === 'picked' ? null : plan.of,
			top: at,
			height: plan.height,
			low,
			high,
			ticks:
				plan.unit === 'votes' ? [0, window.votes[1]] : roundMarks(low, high, Math.max(2, Math.floor(plan.height / 28))),
			paths: plan.traces.map((trace) => ({ trace, words: traceWords[trace], d: pathOf(traces[trace], y) })),
		};
	});
}

const withUnit = (words: string, unit: Lane['unit']): string => (unit === 'votes' ? words : `${words}, ${unit}`);

/** What a lane's scale says at one of its ticks. */
export const tickWords = (tick: number): string => withMinus(String(Number(tick.toPrecision(6))));

/** Pixel of a value in a lane. */
export const laneY = ({ top, height, low, high }: Lane, value: number): number =>
	top + height - ((value - low) / (high - low)) * height;

/** Smallest and largest value of traces with a little room, never empty. */
function limits(traces: readonly Float32Array[], fromZero: boolean): [number, number] {
	let low = fromZero ? 0 : Number.POSITIVE_INFINITY;
	let high = fromZero ? 0 : Number.NEGATIVE_INFINITY;
	for (const trace of traces) {
		for (const value of trace) {
			if (value < low) low = value;
			if (value > high) high = value;
		}
	}
	if (!(low <= high)) return [0, 1];
	const room = Math.max(0.04 * (high - low), 1e-6);
	return [low - room, high + room];
}

/** What the comparator saw when it voted: chopping takes its inputs farther, where nobody reads them. Null without a vote. */
function limitsOfVotes(readings: Float64Array): [number, number] | null {
	const values: number[] = [];
	for (let at = 0; at < readings.length; at += readingStride) {
		const state = readings[at + 3] as number;
		if (state !== readingStates.crossed && state !== readingStates.notCrossed) continue;
		values.push(readings[at + 1] as number, readings[at + 2] as number);
	}
	if (values.length < 8) return null;
	const low = values.reduce((least, one) => Math.min(least, one));
	const high = values.reduce((most, one) => Math.max(most, one));
	const room = Math.max(0.2 * (high - low), 0.02);
	return [low - room, high + room];
}

/**
 * A line through each column's smallest and largest value: between columns it goes the shorter way, so that a
 * smooth trace stays a line and a switched one becomes a band. Columns without a value leave a gap.
 */
function pathOf(ranges: Float32Array, y: (value: number) => number): string {
	let d = '';
	let last = Number.NaN;
	for (let column = 0; 2 * column < ranges.length; column += 1) {
		const low = ranges[2 * column] as number;
		const high = ranges[2 * column + 1] as number;
		if (Number.isNaN(low)) {
			last = Number.NaN;
			continue;
		}
		const [first, second] = Math.abs(low - last) <= Math.abs(high - last) ? [low, high] : [high, low];
		const x = column + 0.5;
		const [yFirst, ySecond] = [y(first).toFixed(1), y(second).toFixed(1)];
		d += `${Number.isNaN(last) ? 'M' : 'L'}${x} ${yFirst}`;
		if (ySecond !== yFirst) d += `V${ySecond}`;
		last = second;
	}
	return d;
}
