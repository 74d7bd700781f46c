import type { Report } from '../../shared/report/report.ts';
import { reportPage } from '../../shared/report/report-page.ts';
import { carriedProgram } from './carried-program.ts';
import { drawChart } from './draw-chart.ts';

/** A report as the text of its file. To be loaded when one is wanted: charts and carried program are large. */
export const reportText = (report: Report): Promise<string> => reportPage(report, drawChart, carriedProgram);
