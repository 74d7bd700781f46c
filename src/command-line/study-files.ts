import { closeSync, openSync, writeFileSync } from 'node:fs';
import { fitsFile, mostUnitsInFile } from '../../shared/results/unit-columns.ts';
import { unitTable } from '../../shared/results/unit-table.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { csvLines } from '../../shared/words/csv.ts';
import { count } from '../../shared/words/figures.ts';
import type { StudyRequest } from '../host/run-study.ts';
import { text } from './common-options.ts';
import { builtProgram } from './pack/program.ts';
import { isReportCutShort, resultText, type StudyOutcome, studyReport } from './study-outcome.ts';

/** Options for files that keep more of a study than its figures. */
export const studyFileOptions = {
	csv: text(
		'FILE',
		'Also write a table with a row for each drive and operating point; --help columns has the columns.',
		null,
		4096,
	),
	correlations: text(
		'FILE',
		'Also write, as a table, how every part goes with the errors of each sector kind: rank correlations over the drives of this study, at every operating point.',
		null,
		4096,
	),
	pack: text(
		'FILE.zip',
		'Also write a pack: scenario, results, report, and the program that makes the same results again with Node alone. `reproduce` checks it.',
		null,
		4096,
	),
};

/** What keeps a pack from being made, found out before hours are spent on its study. */
export const packProblems = (path: string | null): Problem[] =>
	path === null || builtProgram() !== null
		? []
		: [{ path: '--pack', value: path, message: 'needs the built program: run it by `npm run study`' }];

/** What a reader of the files must know: that a result file does not hold all drives. */
export function studyFileRemarks(
	{ record: { study } }: { readonly record: { readonly study: Parameters<typeof fitsFile>[0] } },
	{ json, pack }: { readonly json: string | null; readonly pack: string | null },
): readonly string[] {
	const files = [...(json === null ? [] : [json]), ...(pack === null ? [] : [`results.json in ${pack}`])];
	if (files.length === 0 || fitsFile(study)) return [];
	const points = `${count(study.points)} operating ${study.points === 1 ? 'point' : 'points'}`;
	return [
		`${files.join(' and ')} ${files.length === 1 ? 'has' : 'have'} every figure, but not the drives behind them: a file takes ${count(mostUnitsInFile(study.points))} at ${points}. --csv writes any number of them; for \`changes\` to compare drive by drive, run no more than that.`,
	];
}

/** What writes them, by option. */
export const studyFiles = {
	async json(path: string, outcome: StudyOutcome): Promise<void> {
		writeFileSync(path, await resultText(outcome));
	},
	csv(path: string, { record }: StudyOutcome): void {
		const file = openSync(path, 'w');
		try {
			for (const rows of unitTable(record)) writeFileSync(file, csvLines(rows));
		} finally {
			closeSync(file);
		}
	},
	async correlations(path: string, { record }: StudyOutcome): Promise<void> {
		const { correlationTable } = await import('../../shared/origins/correlation-table.ts');
		writeFileSync(path, csvLines(correlationTable(record)));
	},
	async report(path: string, outcome: StudyOutcome, _request: StudyRequest, scenarioText: string): Promise<void> {
		const report = await studyReport(outcome, scenarioText);
		if (report !== null) writeFileSync(path, report);
	},
	async pack(path: string, outcome: StudyOutcome, request: StudyRequest, scenarioText: string): Promise<void> {
		const { version, resultDigest, partial } = outcome.provenance;
		if (partial) throw new Error('no command makes the figures of an interrupted study again');
		if (isReportCutShort(outcome)) throw new Error('its report was interrupted');
		const { packStudy } = await import('./pack/pack-study.ts');
		const pack = packStudy({
			request,
			scenarioText,
			resultText: await resultText(outcome),
			version,
			resultDigest,
			report: await studyReport(outcome, scenarioText),
			program: builtProgram() ?? [],
		});
		writeFileSync(path, pack);
	},
};
