import { failuresInOrder, finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import type { UnitFailure } from '../../shared/study/run-shard.ts';
import type { Variant } from '../../shared/variants/variant.ts';
import type { EarlyEnds } from './early-ends.ts';
import { type FoundCompensation, failUncompensated } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { runVariantsInPool, type WorkProgress } from './run-variants.ts';
import { onTopOf, type WorkRequest } from './work-request.ts';

/** A question's runs, one after another, and what became of their units. */
export class CountedWork<Request extends WorkRequest & { readonly units: number }> {
	readonly failures: UnitFailure[] = [];
	readonly digests: string[] = [];
	isComplete = true;
	done: WorkProgress = { asked: 0, finished: 0, failed: 0 };
	protected readonly request: Request;
	/** What the scenario's own firmware compensates. */
	protected readonly found: FoundCompensation;
	protected readonly pool: Pool;

	constructor(request: Request, found: FoundCompensation, pool: Pool) {
		this.request = request;
		this.found = found;
		this.pool = pool;
	}

	/**
	 * Runs variants of the scenario on the same drives, as one job.
	 *
	 * @param options.firmware what was found for each variant, where it is tuned by itself
	 * @returns columns of each variant
	 */
	protected async run(
		variants: readonly Variant[],
		{
			seed = this.request.seed,
			firmware,
			early,
		}: {
			readonly seed?: string;
			readonly firmware?: readonly FoundCompensation[];
			readonly early?: EarlyEnds;
		} = {},
	): Promise<readonly StudyColumns[]> {
		const { done, found, pool, request } = this;
		const { scenario, units, signal, shardSize } = request;
		const { studies, isComplete } = await runVariantsInPool(
			{
				list: { plan: { scenario, seed, compensation: found.compensation }, variants },
				units,
				...(early && { early }),
				signal,
				shardSize,
				onProgress: onTopOf(done, request),
			},
			pool,
		);
		this.isComplete &&= isComplete;
		for (const [place, study] of studies.entries()) await this.count(study, (firmware?.[place] ?? found).failure);
		return studies;
	}

	/** @param failure why the compensation could not be found: then no unit counts */
	protected async count(study: StudyColumns, failure: string | undefined): Promise<void> {
		failUncompensated(study, study.units, failure);
		const { asked, finished, failed } = this.done;
		this.done = {
			asked: asked + study.units,
			finished: finished + finishedUnits(study).length,
			failed: failed + study.failures.length,
		};
		this.failures.push(...failuresInOrder(study));
		this.digests.push(await resultDigest(study));
	}
}
