import type { Asked } from '../../shared/report/report.ts';
import { resultFileText } from '../../shared/results/result-file.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { errorMessage } from '../../shared/words/error-message.ts';
import { onOwnWorkers } from '../host/on-own-workers.ts';
import type { Pool } from '../host/pool.ts';
import { runStudyForUnits, type StudyRequest } from '../host/run-study.ts';
import type { Gathered } from '../report/gather-report.ts';

export interface StudyWork extends StudyRequest {
	/** What a report is to show beside the study; null for no report. */
	readonly report: { readonly further: readonly Asked[] } | null;
	readonly onProgress?: (progress: StudyProgress) => void;
}

export interface StudyProgress {
	readonly finished: number;
	readonly failed: number;
	/** What of the report is being computed, after the study, and its drives. */
	readonly further?: { readonly name: string; readonly asked: number };
}

/** A study's figures, with the units behind them for the files that keep those, and what its report shows. */
export interface StudyOutcome extends StudyResult {
	readonly record: UnitRecord;
	/** Null where no report was asked for; else also why it could not be made. */
	readonly gathered: Gathered | { readonly failure: string } | null;
}

export const runStudy = onOwnWorkers(async (work: StudyWork, pool: Pool): Promise<StudyOutcome> => {
	const { result, record } = await runStudyForUnits(work, pool);
	const { report, scenario, seed, units, until = { rule: 'number' }, signal, onProgress = () => {} } = work;
	if (report === null) return { ...result, record, gathered: null };
	// every further calculation comes with it, and a study alone starts sooner without
	const { gatherReport } = await import('../report/gather-report.ts');
	const gathered = await gatherReport(
		{
			...report,
			scenario,
			study: { asked: { seed, units, until }, result },
			signal: signal ?? new AbortController().signal,
			onProgress: (name, { asked, finished, failed }) => onProgress({ finished, failed, further: { name, asked } }),
		},
		pool,
		// the study that hours went into is told whatever becomes of the rest
	).catch((error: unknown) => ({ failure: errorMessage(error) }));
	return { ...result, record, gathered };
});

/** The result file of a study. */
export function resultText({ record, gathered, ...result }: StudyOutcome): Promise<string> {
	return resultFileText(result, record);
}

/** Whether an interruption came before all that its report shows was there. */
export const isReportCutShort = ({ gathered }: StudyOutcome): boolean =>
	gathered !== null && 'isCutShort' in gathered && gathered.isCutShort;

/**
 * The report of a study; null where none was asked for.
 *
 * @throws Error where it could not be made
 */
export async function studyReport({ gathered }: StudyOutcome, scenarioText: string): Promise<string | null> {
	if (gathered === null) return null;
	if ('failure' in gathered)
		throw new Error(`what it shows beside the study could not be computed: ${gathered.failure}`);
	const { reportText } = await import('../report/report-text.ts');
	return reportText({ ...gathered, scenarioText });
}
