import {
	failUnits,
	mergeShard,
	type StudyColumns,
	studyBytes,
	studyFor,
	studyGrownTo,
} from '../../shared/study/merge.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { stretches } from '../../shared/study/stretches.ts';
import { type EarlyEnds, stageEnds } from './early-ends.ts';
import { type FoundCompensation, findCompensations } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

export interface PlansRequest<Result> {
	readonly runs: readonly Pick<StudyPlan, 'scenario' | 'seed' | 'draws'>[];
	/** Of each run. */
	readonly units: number;
	/** Lets runs end earlier, as far as there is memory for it; without it none does. */
	readonly early?: EarlyEnds;
	readonly signal?: AbortSignal | undefined;
	/** At most ten times a second, over all runs; `spared`: units of runs that ended early. */
	readonly onProgress?: (progress: {
		readonly finished: number;
		readonly failed: number;
		readonly spared: number;
	}) => void;
	readonly shardSize?: number | undefined;
	/** Makes figures of a run's columns, which are let go afterwards. */
	readonly summarise: (plan: StudyPlan, study: StudyColumns) => Promise<Result>;
}

/** Bytes that the columns of runs may take together; where it would be more, none ends early and each is let go once it is done. */
const mostHeld = 256e6;

const heldBytes = (plans: readonly StudyPlan[], units: number): number =>
	plans.reduce((sum, { scenario }) => {
		const { fixed, unit } = studyBytes(scenario);
		return sum + fixed + units * unit;
	}, 0);

export interface PlansOutcome<Result> {
	/** In the order of the runs. */
	readonly results: readonly Result[];
	readonly warnings: readonly string[];
	/** False where `signal` cut it short: figures are then of what finished. */
	readonly isComplete: boolean;
}

/**
 * Studies of many scenarios as one job, so that no worker waits at the end of
 * each; where runs may end early, as one job from each look to the next. Every
 * run has the figures that `study` of as many units would have found, to the last bit.
 */
export async function runPlansInPool<Result>(request: PlansRequest<Result>, pool: Pool): Promise<PlansOutcome<Result>> {
	const { runs, units, early, signal, onProgress = () => {}, summarise } = request;
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
	/** With room for the units up to `end`. */
	const studyAt = (place: number, end: number): StudyColumns => {
		const { scenario } = plans[place] as StudyPlan;
		const known = studies.get(place);
		if (known && known.units >= end) return known;
		const study = known ? studyGrownTo(known, scenario, end) : studyFor(scenario, end);
		studies.set(place, study);
		return study;
	};
	const close = (place: number, end: number): void => {
		results[place] = summarise(plans[place] as StudyPlan, studyAt(place, end));
		studies.delete(place);
	};

	// from look to look the columns of all runs are held
	const looks = heldBytes(plans, units) <= mostHeld ? early?.looks : [];
	let goingOn: number[] = [];
	for (const place of plans.keys()) {
		const failure = found[place]?.failure;
		if (failure === undefined) goingOn.push(place);
		else {
			// where the nominal drive itself breaks down, no unit can be compensated
			failUnits(studyAt(place, units), 0, units, failure);
			failed += units;
			close(place, units);
		}
	}
	/** Units done, failed ones included, and units of runs that ended early. */
	let done = (plans.length - goingOn.length) * units;
	let spared = 0;
	let isComplete = signal?.aborted !== true;
	let first = 0;
	for (const end of stageEnds(units, looks)) {
		if (!isComplete || goingOn.length === 0) break;
		const row = goingOn;
		const length = end - first;
		/** Units not yet done, for each run: in the last stage its figures are made as soon as there are none. */
		const left = row.map(() => length);
		const tick = (at: number, count: number): void => {
			left[at] = (left[at] as number) - count;
			if (left[at] === 0 && end === units) close(row[at] as number, end);
		};
		isComplete = await pool.run({
			name: 'unitsOfPlans',
			input: { plans: row.map((place) => plans[place] as StudyPlan), first, units: length },
			to: row.length * length,
			signal,
			silenceLimit,
			...(request.shardSize !== undefined && { shardSize: request.shardSize }),
			onShard({ parts }) {
				for (const { plan, shard } of parts) {
					mergeShard(studyAt(row[plan] as number, end), shard);
					failed += shard.failures.length;
					tick(plan, shard.to - shard.from);
				}
			},
			onFailure(from, to, message) {
				for (const { place: at, first: begin, end: stop } of stretches(length, from, to)) {
					failUnits(studyAt(row[at] as number, end), first + begin, first + stop, message);
					failed += stop - begin;
					tick(at, stop - begin);
				}
			},
			onProgress: (count) => onProgress({ finished: Math.max(0, done + count - failed), failed, spared }),
		});
		if (!isComplete || end === units) break;
		done += row.length * length;
		first = end;
		const ended = new Set(early?.ended(studies));
		goingOn = row.filter((place) => !ended.has(place));
		for (const place of ended) close(place, end);
		spared += ended.size * (units - end);
	}
	if (isComplete) onProgress({ finished: plans.length * units - spared - failed, failed, spared });
	for (const place of plans.keys()) if (results[place] === undefined) close(place, units);
	return {
		results: await Promise.all(results as Promise<Result>[]),
		warnings: [...new Set(found.flatMap(({ warnings }) => warnings))],
		isComplete,
	};
}
