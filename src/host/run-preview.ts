import type { Scenario } from '../../shared/scenario/scenario.ts';
import { failUnits, finishedUnits, mergeShard, studyFor } from '../../shared/study/merge.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import type { PointResult } from '../../shared/study/result.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

export interface PreviewRequest {
	readonly scenario: Scenario;
	/** Not empty. */
	readonly seed: string;
	/** Index of the one operating point looked at. */
	readonly point: number;
	readonly units: number;
	/** The scenario's delay compensation where it is known; found if not given. */
	readonly compensation?: FoundCompensation | undefined;
	/** Ends it at once, at the cost of the workers. */
	readonly signal?: AbortSignal | undefined;
	/** Ends it gently, workers kept. */
	readonly stop?: AbortSignal | undefined;
	/** Takes the figures so far: first after 60 ms, then five times a second. */
	readonly onPartial?: (preview: Preview) => void;
}

/** Quick figures of one operating point: fewer drives, each from one start. */
export interface Preview {
	readonly point: PointResult;
	readonly units: { readonly asked: number; readonly finished: number; readonly failed: number };
	/** Starts of each drive. */
	readonly starts: number;
	/** The units behind the figures; their plan has this one point. */
	readonly record: UnitRecord;
	/** False while there are drives to come, and where it was cut short. */
	readonly isComplete: boolean;
}

/** Fewer drives than this say too little to be shown. */
const fewest = 12;
const firstAfter = 60;
const interval = 200;
/** Milliseconds: short, so that a stop frees the workers at once. */
const shardTime = 25;

/**
 * Runs units 0 up to `units` at one operating point, from one start each. Their
 * parts are those of the full study's units of the same seed. Null where nothing
 * was finished.
 */
export async function runPreviewInPool(request: PreviewRequest, pool: Pool): Promise<Preview | null> {
	const { scenario, seed, point, units, signal, stop, onPartial = () => {} } = request;
	let next = performance.now() + firstAfter;
	const silenceLimit = silenceLimitOf(scenario);
	const found = request.compensation ?? (await findCompensation(scenario, pool, silenceLimit, signal, stop));
	if (found.failure !== undefined || signal?.aborted || stop?.aborted) return null;
	const plan = pointPlan(scenario, point, { seed, compensation: found.compensation, starts: 1 });
	const study = studyFor(plan.scenario, units);
	const preview = (isComplete: boolean): Preview | null => {
		const finished = finishedUnits(study).length;
		if (finished === 0) return null;
		const figures = summarise(plan, study, {
			scenarioDigest: '',
			resultDigest: '',
			partial: !isComplete,
			warnings: [],
		});
		return {
			point: figures.points[0] as PointResult,
			units: { asked: units, finished, failed: study.failures.length },
			starts: 1,
			record: { plan, study },
			isComplete,
		};
	};
	let done = 0;
	const isComplete = await pool.run({
		name: 'units',
		input: plan,
		to: units,
		signal,
		stop,
		shardTime,
		silenceLimit,
		onShard(shard) {
			mergeShard(study, shard);
			done += shard.to - shard.from;
			if (done < fewest || performance.now() < next) return;
			const so = preview(false);
			if (so) onPartial(so);
			next = performance.now() + interval;
		},
		onFailure: (from, to, message) => failUnits(study, from, to, message),
	});
	return preview(isComplete);
}
