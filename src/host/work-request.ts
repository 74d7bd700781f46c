import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { WorkProgress } from './run-variants.ts';

/** Drives done so far, where their number is known beforehand. */
export type DoneSoFar = Omit<WorkProgress, 'asked'>;

/** What every question about a scenario's drives is asked with. */
export interface WorkRequest<Progress = WorkProgress> {
	readonly scenario: Scenario;
	/** Not empty. */
	readonly seed: string;
	/** Cuts the work short: it then resolves with what finished, marked partial. */
	readonly signal?: AbortSignal;
	/** Of all drives so far. At most ten times a second. */
	readonly onProgress?: (progress: Progress) => void;
	/** Drives a shard; the pool chooses if not given. No result depends on it. */
	readonly shardSize?: number;
}

/** Progress of a job that comes on top of what is done. */
export const onTopOf =
	(done: WorkProgress, { onProgress = () => {} }: Pick<WorkRequest, 'onProgress'>) =>
	({ asked, finished, failed }: WorkProgress): void =>
		onProgress({ asked: done.asked + asked, finished: done.finished + finished, failed: done.failed + failed });
