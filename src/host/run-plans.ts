import { failUnits, mergeShard, type StudyColumns, studyFor } from '../../shared/study/merge.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { stretches } from '../../shared/study/stretches.ts';
import { type FoundCompensation, findCompensations } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

export interface PlansRequest<Result> {
	readonly runs: readonly Pick<StudyPlan, 'scenario' | 'seed' | 'draws'>[];
	/** Of each run. */
	readonly units: number;
	readonly signal?: AbortSignal | undefined;
	/** At most ten times a second, over all runs. */
	readonly onProgress?: (progress: { readonly finished: number; readonly failed: number }) => void;
	readonly shardSize?: number | undefined;
	/** Makes figures of a run's columns, which are let go afterwards: many runs would not fit in memory. */
	readonly summarise: (plan: StudyPlan, study: StudyColumns) => Promise<Result>;
}

export interface PlansOutcome<Result> {
	/** In the order of the runs. */
	readonly results: readonly Result[];
	readonly warnings: readonly string[];
	/** False where `signal` cut it short: figures are then of what finished. */
	readonly isComplete: boolean;
}

/**
 * Studies of many scenarios as one job, so that no worker waits at the end of
 * each. Every run has the figures that `study` would have found, to the last bit.
 */
export async function runPlansInPool<Result>(request: PlansRequest<Result>, pool: Pool): Promise<PlansOutcome<Result>> {
	const { runs, units, signal, onProgress = () => {}, summarise } = request;
	const silenceLimit = Math.max(...runs.map(({ scenario }) => silenceLimitOf(scenario)));
	const scenarios = [...new Set(runs.map(({ scenario }) => scenario))];
	const foundOf = await findCompensations(scenarios, pool, silenceLimit, signal);
	const found = runs.map(({ scenario }) => foundOf[scenarios.indexOf(scenario)] as FoundCompensation);
	const plans = runs.map(
		(run, place): StudyPlan => ({
			...run,
			compensation: (found[place] as FoundCompensation).compensation,
		}),
	);
	const studies = new Map<number, StudyColumns>();
	const results: (Promise<Result> | undefined)[] = plans.map(() => undefined);
	let failed = 0;
	const studyAt = (place: number): StudyColumns => {
		const study = studies.get(place) ?? studyFor((plans[place] as StudyPlan).scenario, units);
		studies.set(place, study);
		return study;
	};
	const close = (place: number): void => {
		results[place] = summarise(plans[place] as StudyPlan, studyAt(place));
		studies.delete(place);
	};
	/** Units not yet done, for each run: its figures are made as soon as there are none. */
	const left = plans.map(() => units);
	const done = (place: number, count: number): void => {
		left[place] = (left[place] as number) - count;
		if (left[place] === 0) close(place);
	};
	const fail = (place: number, from: number, to: number, message: string): void => {
		failUnits(studyAt(place), from, to, message);
		failed += to - from;
		done(place, to - from);
	};

	// where the nominal drive itself breaks down, no unit can be compensated
	const sound = plans.flatMap((_, place) => {
		const failure = found[place]?.failure;
		if (failure === undefined) return [place];
		fail(place, 0, units, `the nominal drive: ${failure}`);
		return [];
	});
	const isComplete =
		signal?.aborted !== true &&
		(await pool.run({
			name: 'unitsOfPlans',
			input: { plans: sound.map((place) => plans[place] as StudyPlan), units },
			to: sound.length * units,
			signal,
			silenceLimit,
			...(request.shardSize !== undefined && { shardSize: request.shardSize }),
			onShard({ parts }) {
				for (const { plan, shard } of parts) {
					const place = sound[plan] as number;
					mergeShard(studyAt(place), shard);
					failed += shard.failures.length;
					done(place, shard.to - shard.from);
				}
			},
			onFailure(from, to, message) {
				for (const { place, first, end } of stretches(units, from, to)) {
					fail(sound[place] as number, first, end, message);
				}
			},
			onProgress: (count) => {
				const all = count + (plans.length - sound.length) * units;
				onProgress({ finished: Math.max(0, all - failed), failed });
			},
		}));
	for (const place of plans.keys()) if (results[place] === undefined) close(place);
	return {
		results: await Promise.all(results as Promise<Result>[]),
		warnings: [...new Set(found.flatMap(({ warnings }) => warnings))],
		isComplete,
	};
}
