import { choiceNames } from '../../shared/drive/drive.ts';
import type { FailureMixture } from '../../shared/rare/failure-mixture.ts';
import {
	blankShard,
	type JudgedShard,
	notSimulated,
	type PartDrives,
	type Wanted,
	wantedFigures,
} from '../../shared/rare/judge-drives.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { UnitFailure } from '../../shared/study/run-shard.ts';
import type { Pool } from './pool.ts';

/** Judges drives of the part space on a pool's workers, batch after batch, and keeps count. */
export interface DriveJudge {
	/** Given points, drive i with the i-th set of moments, counted round; null where cut short. */
	given(points: readonly Float64Array[], moments: readonly number[], wanted: Wanted): Promise<JudgedShard | null>;
	/** `count` draws of a mixture from draw `first` on; where cut short, those that were finished. */
	drawn(mixture: FailureMixture, count: number, first: number): Promise<JudgedShard>;
	/** Drives judged so far, failed ones included. */
	count(): number;
	/** By number in order of judging, none left out. */
	readonly failures: UnitFailure[];
	/** False where `signal` cut it short. */
	isComplete(): boolean;
}

interface Conditions {
	readonly pool: Pool;
	readonly plan: StudyPlan;
	readonly signal: AbortSignal | undefined;
	readonly silenceLimit: number;
	readonly shardSize: number | undefined;
	/** Where the nominal drive failed: why. Nothing is run then and every drive counts as failed. */
	readonly failure: string | undefined;
	readonly onProgress: ((progress: { readonly finished: number; readonly failed: number }) => void) | undefined;
}

const choices = choiceNames.length;

export function driveJudge(conditions: Conditions): DriveJudge {
	const { pool, plan, signal, silenceLimit, shardSize, failure, onProgress = () => {} } = conditions;
	const failures: UnitFailure[] = [];
	let judged = 0;
	let isComplete = true;

	const judge = async (drives: PartDrives, count: number): Promise<JudgedShard & { readonly done: Uint8Array }> => {
		const figuresPerDrive = wantedFigures({ plan, drives });
		const whole = { ...blankShard(0, count, figuresPerDrive), failures: [], done: new Uint8Array(count) };
		const before = judged;
		const fail = (from: number, to: number, message: string): void => {
			whole.outcomes.fill(notSimulated, from * choices, to * choices);
			whole.done.fill(1, from, to);
			for (let unit = from; unit < to; unit += 1) failures.push({ unit: before + unit, message });
		};
		if (failure !== undefined) fail(0, count, failure);
		else if (count > 0) {
			const wasComplete = await pool.run({
				name: 'judgedDrives',
				input: { plan, drives },
				to: count,
				signal,
				silenceLimit,
				shardSize,
				onShard(shard, from, to) {
					for (const name of ['outcomes', 'points', 'perHour', 'angles'] as const) {
						whole[name].set(shard[name], from * choices);
					}
					whole.figures.set(shard.figures, from * figuresPerDrive);
					whole.weights.set(shard.weights, from);
					whole.done.fill(1, from, to);
					for (const { unit, message } of shard.failures) failures.push({ unit: before + unit, message });
				},
				onFailure: fail,
				onProgress: (done) =>
					onProgress({ finished: Math.max(0, before + done - failures.length), failed: failures.length }),
			});
			isComplete &&= wasComplete;
		}
		judged += whole.done.reduce((sum, one) => sum + one, 0);
		failures.sort((one, other) => one.unit - other.unit);
		return whole;
	};

	return {
		failures,
		count: () => judged,
		isComplete: () => isComplete,
		async given(points, moments, wanted) {
			const dimension = points[0]?.length ?? 0;
			const flat = new Float64Array(points.length * dimension);
			for (const [i, point] of points.entries()) flat.set(point, i * dimension);
			const kept = points.map((_, i) => moments[i % moments.length] as number);
			const whole = await judge({ kind: 'given', points: flat, moments: kept, wanted }, points.length);
			return isComplete ? whole : null;
		},
		async drawn(mixture, count, first) {
			const whole = await judge({ kind: 'drawn', mixture, first }, isComplete ? count : 0);
			const isDone = (drive: number): boolean => whole.done[drive] === 1;
			const ofDone = (_: number, cell: number): boolean => isDone(Math.floor(cell / choices));
			return {
				...whole,
				outcomes: whole.outcomes.filter(ofDone),
				points: whole.points.filter(ofDone),
				perHour: whole.perHour.filter(ofDone),
				angles: whole.angles.filter(ofDone),
				weights: whole.weights.filter((_, drive) => isDone(drive)),
			};
		},
	};
}
