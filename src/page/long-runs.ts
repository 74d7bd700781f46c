import { browserHost } from '../host/browser-host.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { LongWatch } from './model/long-question.ts';

interface RunWatch {
	readonly signal: AbortSignal;
	readonly onProgress: (progress: {
		readonly asked?: number;
		readonly finished: number;
		readonly failed: number;
	}) => void;
}

/**
 * A study of src/host for a question of the page, on workers that are started for it and ended after it.
 *
 * @param run such as runGrades
 * @param drivesOf drives that a request comes to, where the study does not tell of them as it goes
 */
export const onPageWorkers =
	<Asked, Result>(
		run: (request: Asked & RunWatch, host: WorkerHost) => Promise<Result>,
		drivesOf: (asked: Asked) => number = () => 0,
	) =>
	(asked: Asked, { signal, onProgress }: Pick<LongWatch<Result>, 'signal' | 'onProgress'>): Promise<Result> => {
		const drives = drivesOf(asked);
		return run(
			{ ...asked, signal, onProgress: (progress) => onProgress({ asked: drives, ...progress }) },
			browserHost(),
		);
	};
