import { askFurther } from '../../shared/report/ask.ts';
import { onOwnWorkers } from '../host/on-own-workers.ts';
import { gatherReport } from '../report/gather-report.ts';
import { reportText } from '../report/report-text.ts';
import type { ReportAsked, ReportWatch } from './model/report/report.ts';

/** A report as the text of its file. Rejects where it is stopped: half a report is none. */
export const makeReport = onOwnWorkers(
	async ({ scenarioText, further, ...request }: ReportAsked & ReportWatch, pool): Promise<string> => {
		const { scenario, study, signal } = request;
		const gathered = await gatherReport({ ...request, further: askFurther(further, scenario, study.asked) }, pool);
		signal.throwIfAborted();
		return reportText({ ...gathered, scenarioText });
	},
);
