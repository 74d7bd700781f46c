import { scenarioDigest } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { warnings as scenarioWarnings } from '../../shared/scenario/warnings.ts';
import {
	failUnits,
	mergeShard,
	pendingStretches,
	type StudyColumns,
	studyFor,
	studyUpTo,
} from '../../shared/study/merge.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { isReached, stages } from '../../shared/study/stopping.ts';
import type { StoppingRule } from '../../shared/study/stopping-rule.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { StudyJournal } from './study-journal.ts';
import { withLosses } from './with-losses.ts';

export interface StudyRequest {
	readonly scenario: Scenario;
	/** Not empty. */
	readonly seed: string;
	/** Number of units; the most there may be where `until` may end the study before. */
	readonly units: number;
	/** What ends the study; the number of units if not given. */
	readonly until?: StoppingRule | undefined;
	/** Cuts the study short: it then resolves with what finished, marked partial. */
	readonly signal?: AbortSignal;
	/** As `signal`, but gently: shards under way are finished, workers kept, and no result digest is made. */
	readonly stop?: AbortSignal | undefined;
	/** The scenario's delay compensation where it is known; found if not given. */
	readonly compensation?: FoundCompensation | undefined;
	/** Keeps finished shards; what it holds of the same drives already is not simulated again. */
	readonly journal?: StudyJournal | undefined;
	/** At most ten times a second. */
	readonly onProgress?: (progress: { readonly finished: number; readonly failed: number }) => void;
	/** Takes the figures so far (their result digest left empty): ever more seldom, and at less than a tenth of the time. */
	readonly onPartial?: (result: StudyResult, record: UnitRecord) => void;
	/** Units a shard; the pool chooses if not given. No result depends on it. */
	readonly shardSize?: number;
	/** Milliseconds a shard should take where the pool chooses. */
	readonly shardTime?: number;
	/** Milliseconds without a sign of life after which a worker is given up; from the scenario if not given. */
	readonly silenceLimit?: number;
}

/** Units from which on starting the workers anew is little beside the study. */
const largeStudy = 100_000;

/** No figures so far are told of fewer units. */
const fewestShown = 4;

/** Runs a study on workers of its own. */
export const runStudy = onOwnWorkers(runStudyInPool);

/** Runs a study on workers that live on, as a page wants it. Units that cannot be simulated are counted in the result. */
export async function runStudyInPool(request: StudyRequest, pool: Pool): Promise<StudyResult> {
	return (await runStudyForUnits(request, pool)).result;
}

/** The same, with the units behind the figures, to be compared with those of another study. */
export async function runStudyForUnits(
	request: StudyRequest,
	pool: Pool,
): Promise<{ readonly result: StudyResult; readonly record: UnitRecord }> {
	const { scenario, seed, units, signal, stop, onProgress = () => {} } = request;
	const silenceLimit = request.silenceLimit ?? silenceLimitOf(scenario);
	const study = studyFor(scenario, units);
	const digest = await scenarioDigest(scenario);
	const found = request.compensation ?? (await findCompensation(scenario, pool, silenceLimit, signal, stop));
	const plan: StudyPlan = { scenario, seed, compensation: found.compensation };
	const warnings = [...scenarioWarnings(scenario), ...found.warnings];
	const rule: StoppingRule = request.until ?? { rule: 'number' };
	/** Units begun with; what lies beyond is not part of the study. */
	let begun = 0;
	/** Units done, failed ones included. */
	let done = 0;
	/** Units that workers have finished. */
	let finished = 0;
	const summary = (of: StudyColumns, result: string, partial: boolean): StudyResult =>
		summarise(plan, of, {
			scenarioDigest: digest,
			resultDigest: result,
			partial,
			warnings,
			stopping: { rule, ceiling: units },
		});
	const partials = partialMeter(() => {
		const soFar = studyUpTo(study, begun);
		request.onPartial?.(summary(soFar, '', true), { plan, study: soFar });
	});

	let isComplete = true;
	if (found.failure !== undefined) {
		failUnits(study, 0, units, found.failure);
		begun = units;
	}
	// a stage ends with all of its units done, so that a look sees the same ones for any number of workers
	for (const end of begun === units ? [] : stages(rule, units)) {
		const from = begun;
		begun = end;
		// cut short before the compensation was found: not even kept shards are of this study then
		isComplete = signal?.aborted !== true && stop?.aborted !== true;
		if (!isComplete) break;
		for (const shard of request.journal?.shards(from, end) ?? []) {
			mergeShard(study, shard);
			done += shard.to - shard.from;
		}
		for (const gap of pendingStretches(study, from, end)) {
			isComplete = await pool.run({
				name: 'units',
				input: plan,
				...gap,
				signal,
				stop,
				silenceLimit,
				shardSize: request.shardSize,
				shardTime: request.shardTime,
				onShard(shard) {
					mergeShard(study, shard);
					request.journal?.keep(shard);
					finished += shard.to - shard.from;
					partials.tell(finished);
				},
				onFailure: (first, to, message) => failUnits(study, first, to, message),
				onProgress(now) {
					const failed = study.failures.length;
					onProgress({ finished: Math.max(0, done + now - failed), failed });
				},
			});
			done += gap.to - gap.from;
			if (!isComplete) break;
		}
		if (!isComplete || isReached(rule, scenario, studyUpTo(study, end))) break;
	}
	// summing up a large study takes as much room as the workers do
	if (begun >= largeStudy) pool.rest();
	const whole = studyUpTo(study, begun);
	const ownDigest = stop?.aborted ? '' : await resultDigest(whole);
	const result = withLosses(summary(whole, ownDigest, !isComplete), pool);
	return { result, record: { plan, study: whole } };
}

/**
 * Calls after 100 ms, then at most four times a second, and spends less than a tenth of the time on it. With less than a
 * fifth more units it waits: they would move a figure by a fraction of its interval, while whoever shows it has all of
 * them to draw, beside the workers.
 */
function partialMeter(call: () => void) {
	let next = performance.now() + 100;
	let enough = fewestShown;
	return {
		tell(units: number): void {
			const started = performance.now();
			if (started < next || units < enough) return;
			call();
			const ended = performance.now();
			next = ended + Math.max(250, 10 * (ended - started));
			enough = 1.2 * units;
		},
	};
}
