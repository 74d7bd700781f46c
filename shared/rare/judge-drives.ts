import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import type { StudyPlan } from '../study/plan.ts';
import type { UnitFailure } from '../study/run-shard.ts';
import { shortcomings } from '../study/unit-passes.ts';
import { errorMessage } from '../words/error-message.ts';
import { drawFromMixture, type FailureMixture } from './failure-mixture.ts';
import { figuresPerPoint, type Judging, judgeDrive } from './judge-drive.ts';
import { partSpace } from './part-space.ts';

/** Drives of the part space, numbered from 0; plain data, to be sent to workers. */
export type PartDrives =
	/** Given points, [drive][coordinate], each with the moments and noise of the unit named for it. */
	| {
			readonly kind: 'given';
			readonly points: Float64Array;
			readonly moments: readonly number[];
			readonly wanted: Wanted;
	  }
	/** Drawn from a mixture, draw `first` + i; each meets the moments of the unit of its number. */
	| { readonly kind: 'drawn'; readonly mixture: FailureMixture; readonly first: number };

/** What given drives are run for: with one choice alone, and no further than that takes. */
export interface Wanted {
	readonly choice: ChoiceName;
	/**
	 * Whether each fails, and where first: nothing else is known of it then. Or that with angle and rate. Or
	 * the smooth figures: of every operating point, or of the one that is told for each drive.
	 */
	readonly of: 'failing' | 'everything' | 'figures' | readonly number[];
}

export interface JudgePlan {
	readonly plan: StudyPlan;
	readonly drives: PartDrives;
}

/** What a range of drives came to; cells are [drive][choice], those of a choice that is not wanted are empty. Drives that could not be simulated fail. */
export interface JudgedShard {
	readonly from: number;
	/** 0 where the drive passes, 1 + index into `shortcomings` where it does not, `notSimulated` where it is not known. */
	readonly outcomes: Uint8Array<ArrayBuffer>;
	/** The operating point first not passed. */
	readonly points: Uint8Array<ArrayBuffer>;
	/** Crossings in an operating hour; 0 where not simulated, NaN where lock was lost before a sector was measured. */
	readonly perHour: Float64Array<ArrayBuffer>;
	/** The required quantile of |angle error| at the worst point, degrees. */
	readonly angles: Float64Array<ArrayBuffer>;
	/** [drive][figure]; empty where none are wanted. */
	readonly figures: Float64Array<ArrayBuffer>;
	/** Of each drive; 1 for given ones. */
	readonly weights: Float64Array<ArrayBuffer>;
	readonly failures: readonly UnitFailure[];
}

/** Code of a drive that could not be simulated. */
export const notSimulated = 1 + shortcomings.length;

const choices = choiceNames.length;

/** A shard of `count` drives before any has been judged. */
export function blankShard(from: number, count: number, figuresPerDrive: number): Omit<JudgedShard, 'failures'> {
	return {
		from,
		outcomes: new Uint8Array(count * choices),
		points: new Uint8Array(count * choices),
		perHour: new Float64Array(count * choices),
		angles: new Float64Array(count * choices),
		figures: new Float64Array(count * figuresPerDrive).fill(Number.NaN),
		weights: new Float64Array(count).fill(1),
	};
}

/** Judges drives `from` up to `to`: each a function of the plan and its number alone. */
export function judgeDrives(
	{ plan, drives }: JudgePlan,
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): JudgedShard {
	const space = partSpace(plan.scenario);
	const dimension = space.slots.length;
	const figuresPerDrive = wantedFigures({ plan, drives });
	const failures: UnitFailure[] = [];
	const shard = { ...blankShard(from, to - from, figuresPerDrive), failures };
	for (let index = from; index < to; index++) {
		const row = index - from;
		let point: Float64Array;
		let moments: number;
		if (drives.kind === 'given') {
			point = drives.points.subarray(index * dimension, (index + 1) * dimension);
			moments = drives.moments[index] as number;
		} else {
			moments = drives.first + index;
			const draw = drawFromMixture(drives.mixture, dimension, plan.seed, moments);
			point = draw.point;
			shard.weights[row] = draw.weight;
		}
		try {
			const judged = judgeDrive(plan, space, point, moments, judging(drives, index));
			for (const [c, choice] of choiceNames.entries()) {
				const own = judged[choice];
				if (own === undefined) continue;
				const { shortcoming, perHour, angle, figures } = own;
				const cell = row * choices + c;
				shard.outcomes[cell] = shortcoming ? 1 + shortcomings.indexOf(shortcoming.reason) : 0;
				shard.points[cell] = shortcoming?.point ?? 0;
				shard.perHour[cell] = perHour;
				shard.angles[cell] = angle;
				if (figuresPerDrive > 0) shard.figures.set(Float64Array.from(figures), row * figuresPerDrive);
			}
		} catch (error) {
			shard.outcomes.fill(notSimulated, row * choices, (row + 1) * choices);
			failures.push({ unit: index, message: errorMessage(error) });
		}
		onProgress(row + 1);
	}
	return shard;
}

/** Figures a drive, 0 where none are wanted. */
export function wantedFigures({ plan, drives }: JudgePlan): number {
	if (drives.kind === 'drawn' || drives.wanted.of === 'failing' || drives.wanted.of === 'everything') return 0;
	return plan.scenario.points.length * figuresPerPoint;
}

/** A drawn drive is judged for both choices at every point: its failing and its rate count. */
function judging(drives: PartDrives, index: number): Judging {
	if (drives.kind === 'drawn') return {};
	const { choice, of } = drives.wanted;
	if (of === 'failing') return { choice, untilFailed: true };
	if (of === 'everything') return { choice };
	return { choice, figures: true, only: of === 'figures' ? undefined : of[index] };
}
