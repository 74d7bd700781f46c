import { browserHost } from '../host/browser-host.ts';
import { budgetsDrives, runBudgets } from '../host/run-budgets.ts';
import { runContest } from '../host/run-contest.ts';
import { runEnvelope } from '../host/run-envelope.ts';
import { runGrades } from '../host/run-grades.ts';
import { originsDrives, runOrigins } from '../host/run-origins.ts';
import { runRange } from '../host/run-range.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { LongWatch } from './model/long-question.ts';

/**
 * The longer questions of the page, each on workers that are started for it and
 * ended after it. They are asked in a thread of its own: merging, resampling and
 * digests would hold up typing. A further one is a line here.
 */
export const questions = {
	grades: onWorkers(runGrades),
	origins: onWorkers(runOrigins, originsDrives),
	budgets: onWorkers(runBudgets, budgetsDrives),
	range: onWorkers(runRange),
	contest: onWorkers(runContest),
	envelope: onWorkers(runEnvelope),
};

interface RunWatch<Result> {
	readonly signal: AbortSignal;
	readonly onProgress: (progress: {
		readonly asked?: number;
		readonly finished: number;
		readonly failed: number;
	}) => void;
	/** Of those that tell what they have so far. */
	readonly onPartial: (result: Result) => void;
}

/**
 * @param run such as runGrades
 * @param drivesOf drives that a request comes to, where the study does not tell of them as it goes
 */
function onWorkers<Asked, Result>(
	run: (request: Asked & RunWatch<Result>, host: WorkerHost) => Promise<Result>,
	drivesOf: (asked: Asked) => number = () => 0,
) {
	return (asked: Asked, { signal, onProgress, onPartial }: LongWatch<Result>): Promise<Result> => {
		const drives = drivesOf(asked);
		return run(
			{ ...asked, signal, onPartial, onProgress: (progress) => onProgress({ asked: drives, ...progress }) },
			browserHost(),
		);
	};
}
