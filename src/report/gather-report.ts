import { modelChecksSentence, modelChecksSummary } from '../../shared/model-checks/model-checks-summary.ts';
import type { Asked, Calculation, Calculations, Report } from '../../shared/report/report.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { Pool } from '../host/pool.ts';
import type { WorkProgress } from '../host/run-variants.ts';
import { withLosses } from '../host/with-losses.ts';
import { findWorst, noWorst } from './find-worst.ts';
import { runCalculation } from './run-calculation.ts';

/** A report but for the text of its scenario file. */
export type Gathered = Omit<Report, 'scenarioText'>;

interface ReportRequest {
	readonly scenario: Scenario;
	readonly study: Calculations['study'];
	/** What else is to be computed. */
	readonly further: readonly Asked[];
	/** Cuts it short: what is not finished is then marked partial or left out. */
	readonly signal: AbortSignal;
	/** @param name what is being computed */
	readonly onProgress: (name: Calculation['name'], progress: WorkProgress) => void;
}

/** Computes what a report shows beside the study that it is about. */
export async function gatherReport(request: ReportRequest, pool: Pool): Promise<Gathered> {
	const { scenario, study, further, signal, onProgress } = request;
	const calculations: Calculation[] = [{ name: 'study', ...study }];
	for (const asked of further) {
		if (signal.aborted) break;
		const made = await runCalculation(asked, scenario, pool, {
			signal,
			onProgress: (progress) => onProgress(asked.name, progress),
		});
		calculations.push({ ...made, result: withLosses(made.result, pool) } as Calculation);
	}
	const isCutShort = signal.aborted;
	return {
		scenario,
		calculations,
		// each that was begun is among them, after the study
		missing: further.slice(calculations.length - 1).map(({ name }) => name),
		isCutShort,
		worst: isCutShort ? noWorst : await findWorst(scenario, study.result, pool),
		modelChecks: modelChecksSentence(modelChecksSummary),
	};
}
