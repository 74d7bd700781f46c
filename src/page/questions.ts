import { browserHost } from '../host/browser-host.ts';
import { runContest } from '../host/run-contest.ts';
import { runEnvelope } from '../host/run-envelope.ts';
import { runGrades } from '../host/run-grades.ts';
import { runRange } from '../host/run-range.ts';
import { runSpread } from '../host/run-spread.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import type { LongWatch } from './model/long-question.ts';
import type { ReportAsked, ReportWatch } from './model/report/report.ts';

/** @param run such as runGrades */
const onWorkers =
	<Asked, Result>(run: (request: Asked & LongWatch<Result>, host: WorkerHost) => Promise<Result>) =>
	(asked: Asked, { signal, onPartial, onProgress }: LongWatch<Result>): Promise<Result> =>
		run({ ...asked, signal, onPartial, onProgress }, browserHost());

/**
 * The longer questions of the page, each on workers that are started for it and
 * ended after it. They are asked in a thread of its own: merging, resampling and
 * digests would hold up typing. A further one is a line here.
 */
export const questions = {
	grades: onWorkers(runGrades),
	spread: onWorkers(runSpread),
	range: onWorkers(runRange),
	contest: onWorkers(runContest),
	envelope: onWorkers(runEnvelope),
	// with the charts' library and the program that it carries, loaded when one is wanted
	report: async (asked: ReportAsked, watch: ReportWatch): Promise<string> =>
		(await import('./make-report.ts')).makeReport({ ...asked, ...watch }, browserHost()),
};
