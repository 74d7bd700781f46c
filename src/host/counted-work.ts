import { failuresInOrder, finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import type { UnitFailure } from '../../shared/study/run-shard.ts';
import { failUncompensated } from './find-compensation.ts';
import type { WorkProgress } from './run-variants.ts';

/** What became of the units of several runs, one after another. */
export class CountedWork {
	readonly failures: UnitFailure[] = [];
	readonly digests: string[] = [];
	isComplete = true;
	done: WorkProgress = { asked: 0, finished: 0, failed: 0 };

	/** @param failure why the compensation could not be found: then no unit counts */
	protected async count(studies: readonly StudyColumns[], failure: string | undefined): Promise<void> {
		let { asked, finished, failed } = this.done;
		for (const study of studies) {
			asked += study.units;
			failUncompensated(study, study.units, failure);
			finished += finishedUnits(study).length;
			failed += study.failures.length;
			this.failures.push(...failuresInOrder(study));
			this.digests.push(await resultDigest(study));
		}
		this.done = { asked, finished, failed };
	}
}
