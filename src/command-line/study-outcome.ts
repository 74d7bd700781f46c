import { resultFileText } from '../../shared/results/result-file.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { onOwnWorkers } from '../host/on-own-workers.ts';
import type { Pool } from '../host/pool.ts';
import { runStudyForUnits, type StudyRequest } from '../host/run-study.ts';

/** A study's figures, with the units behind them for the files that keep those. */
export interface StudyOutcome extends StudyResult {
	readonly record: UnitRecord;
}

export const runStudy = onOwnWorkers(async (request: StudyRequest, pool: Pool): Promise<StudyOutcome> => {
	const { result, record } = await runStudyForUnits(request, pool);
	return { ...result, record };
});

/** The result file of a study. */
export function resultText({ record, ...result }: StudyOutcome): Promise<string> {
	return resultFileText(result, record);
}
