import { type Cause, type ChoiceName, causeNames, choiceNames, type Drive, type PerChoice } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { PowerStage } from '../drive/power-stage/power-stage.ts';
import { Ringing } from '../drive/ringing.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import type { EventKind } from '../words/names.ts';
import { buildRequest } from './build-request.ts';
import { ColumnRanges } from './column-ranges.ts';
import { eventKind } from './drive-outcome.ts';
import type { DriveRequest } from './drive-request.ts';
import { ReplayDetection, type SectorStory } from './replay-detection.ts';
import { SegmentState } from './segment-state.ts';
import { SenseNodes } from './sense-nodes.ts';

/** What is drawn against time. Voltages in V against the bus negative, currents in A into the motor, torque in N·m. */
export const traceNames = [
	'sense',
	'threshold',
	'terminalA',
	'terminalB',
	'terminalC',
	'currentA',
	'currentB',
	'currentC',
	'torque',
] as const;
export type TraceName = (typeof traceNames)[number];

export interface WindowRequest {
	readonly drive: DriveRequest;
	/** s; the whole run where `to` is not after `from`. */
	readonly from: number;
	readonly to: number;
	/** Columns that the window is drawn in. */
	readonly columns: number;
}

/** A stretch of a drive's run with both choices. */
export interface DriveWindow {
	readonly from: number;
	readonly to: number;
	readonly columns: number;
	/** When the longer of the two runs ends, s; when the closed loop begins, and the measured sectors. */
	readonly end: number;
	readonly loopBegins: number;
	readonly measuredBegins: number;
	/** Electrical degrees a second; the angle at t = 0 is 30°. */
	readonly degreesPerSecond: number;
	/** PWM period, s. */
	readonly period: number;
	/** Votes that accept a crossing, and readings that vote. */
	readonly votes: readonly [number, number];
	readonly runs: PerChoice<RunWindow>;
}

export interface RunWindow {
	readonly traces: Readonly<Record<TraceName, Float32Array<ArrayBuffer>>>;
	/** Of the window's readings, at most `mostReadings`: time (s), sense side and threshold as compared (V), state, votes. */
	readonly readings: Float64Array<ArrayBuffer>;
	/** Whether there were more. */
	readonly readingsLeftOut: number;
	/** Every sector from the last one of warm-up on. */
	readonly sectors: readonly SectorEvents[];
	readonly lost: boolean;
}

export interface SectorEvents extends Readonly<SectorStory> {
	/** Whether it counts: not while settling. */
	readonly measured: boolean;
	/** What its crossing counts as; null where it is in order. */
	readonly kind: EventKind | null;
	readonly cause: Cause | null;
}

export const readingStride = 5;
const mostReadings = 6000;
/** Points to a column while an edge rings, the most in one segment, and over how many of its decays. */
const ringPointsPerColumn = 8;
const mostRingPoints = 64;
const ringDecaysDrawn = 5;

/** Simulates a drive again and keeps a window of it: a task of one index. */
export function driveWindow(request: WindowRequest): DriveWindow {
	const { drive, noise } = buildRequest(request.drive);
	const end = request.to > request.from ? request.to : runEnd(drive, noise);
	return recordWindow(drive, noise, { from: Math.max(0, request.from), to: end, columns: request.columns });
}

/** As `driveWindow`, of a drive in hand. */
export function recordWindow(
	drive: Drive,
	noise: NoiseSource,
	{ from, to, columns }: { readonly from: number; readonly to: number; readonly columns: number },
): DriveWindow {
	const { trial, detection } = drive;
	const degreesPerSecond = drive.operation.speed * 6 * drive.motor.polePairs;
	const recorders = perChoice((choice) => new Recorder(drive, noise, choice, from, to, columns));
	const pair = simulatePair(drive, noise, {
		observe(stage, choice) {
			for (const name of choiceNames) if (choice === name || choice === 'warmup') recorders[name].take(stage);
		},
	});
	const runs = perChoice((choice): RunWindow => {
		const first = trial.warmup + trial.settle;
		const { causes, lost } = pair[choice];
		const recorder = recorders[choice];
		const sectors = recorder.detection.stories
			.filter(({ sector, commutation }) => sector >= trial.warmup - 1 && !Number.isNaN(commutation))
			.map(
				(story): SectorEvents => ({
					...story,
					measured: story.sector >= first,
					kind: story.sector < trial.warmup ? null : eventKind(story.crossingError, trial.falseMargin),
					cause: causeNames[(causes[story.sector - first] ?? 0) - 1] ?? null,
				}),
			);
		return { ...recorder.result(), sectors, lost };
	});
	const sectorTime = 60 / degreesPerSecond;
	return {
		from,
		to,
		columns,
		end: Math.max(...choiceNames.map((choice) => runs[choice].sectors.at(-1)?.commutation ?? 0)),
		loopBegins: trial.warmup * sectorTime,
		measuredBegins: (trial.warmup + trial.settle) * sectorTime,
		degreesPerSecond,
		period: 1 / drive.inverter.pwmFrequency,
		votes: [detection.majorityVotes, detection.majorityWindow],
		runs,
	};
}

/** When the longer of both runs ends, s. */
function runEnd(drive: Drive, noise: NoiseSource): number {
	let end = 0;
	simulatePair(drive, noise, {
		observe: (stage) => {
			end = Math.max(end, stage.time + stage.length);
		},
	});
	return end;
}

/** Keeps what one choice's run does within a window. */
class Recorder {
	readonly detection: ReplayDetection;
	private readonly state = new SegmentState();
	private readonly nodes: SenseNodes;
	private readonly ringing = new Ringing();
	private readonly columns: Readonly<Record<TraceName, ColumnRanges>>;
	private readonly readings: number[] = [];
	private left = 0;
	private readonly from: number;
	private readonly to: number;
	/** Longest distance of two points, s. */
	private readonly spacing: number;

	constructor(drive: Drive, noise: NoiseSource, choice: ChoiceName, from: number, to: number, columns: number) {
		this.from = from;
		this.to = to;
		this.spacing = (to - from) / columns;
		this.nodes = new SenseNodes(drive, choice);
		this.ringing.load(drive, noise);
		this.columns = Object.fromEntries(
			traceNames.map((name) => [name, new ColumnRanges(from, to, columns)]),
		) as unknown as Record<TraceName, ColumnRanges>;
		this.detection = new ReplayDetection(drive, noise, choice, (time, sense, threshold, state, votes) => {
			if (time < from || time > to) return;
			if (this.readings.length < mostReadings * readingStride) this.readings.push(time, sense, threshold, state, votes);
			else this.left += 1;
		});
	}

	take(stage: PowerStage): void {
		this.detection.follow(stage, this.ringing);
		const { time, length } = stage;
		if (length <= 0 || time > this.to || time + length < this.from) return;
		const first = Math.max(0, this.from - time);
		const last = Math.min(length, this.to - time);
		if (last < first) return;
		const rung = this.ringEnd(stage, first, last);
		if (rung > first) {
			const steps = Math.ceil((ringPointsPerColumn * (rung - first)) / this.spacing);
			this.points(stage, first, rung, Math.min(mostRingPoints, steps));
		}
		// one more than there are columns: points just as far apart would leave some out by rounding
		this.points(stage, rung, last, 1 + Math.ceil((last - rung) / this.spacing));
	}

	result(): Pick<RunWindow, 'traces' | 'readings' | 'readingsLeftOut'> {
		const traces = traceNames.map((name) => [name, this.columns[name].ranges]);
		return {
			traces: Object.fromEntries(traces) as RunWindow['traces'],
			readings: Float64Array.from(this.readings),
			readingsLeftOut: this.left,
		};
	}

	/** Up to where ringing is worth drawing closely, in seconds into the segment: nowhere where a column holds it all. */
	private ringEnd(stage: PowerStage, first: number, last: number): number {
		const { ringing } = this;
		if (ringing.amplitude === 0) return first;
		const decay = -1 / ringing.sigmaRe;
		if (this.spacing > ringDecaysDrawn * decay) return first;
		return Math.max(first, Math.min(last, stage.ringTime + ringDecaysDrawn * decay - stage.time));
	}

	private points(stage: PowerStage, first: number, last: number, steps: number): void {
		const { state, nodes, columns, ringing } = this;
		const count = Math.max(1, steps);
		for (let i = 0; i <= count; i++) {
			const s = first + ((last - first) * i) / count;
			const at = stage.time + s;
			state.read(stage, ringing, s);
			nodes.read(stage, ringing, s);
			columns.sense.add(at, nodes.ringingSense);
			columns.threshold.add(at, nodes.ringingThreshold);
			columns.terminalA.add(at, state.terminal[0] as number);
			columns.terminalB.add(at, state.terminal[1] as number);
			columns.terminalC.add(at, state.terminal[2] as number);
			columns.currentA.add(at, state.current[0] as number);
			columns.currentB.add(at, state.current[1] as number);
			columns.currentC.add(at, state.current[2] as number);
			columns.torque.add(at, state.torque);
		}
	}
}
