import { closeSync, openSync, writeFileSync } from 'node:fs';
import { fitsFile } from '../../shared/results/unit-columns.ts';
import { unitTable } from '../../shared/results/unit-table.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { csvLines } from '../../shared/words/csv.ts';
import type { StudyRequest } from '../host/run-study.ts';
import { text } from './common-options.ts';
import { builtProgram } from './pack/program.ts';
import { resultText, type StudyOutcome, studyReport } from './study-outcome.ts';

/** Options for files that keep more of a study than its figures. */
export const studyFileOptions = {
	csv: text(
		'FILE',
		'Also write a table with a row for each drive and operating point; --help columns has the columns.',
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

/** What a reader of the files must know: that a result file does not hold all of them. */
export const studyFileRemarks = (
	{ record }: { readonly record: { readonly study: Parameters<typeof fitsFile>[0] } },
	{ json }: { readonly json: string | null },
): readonly string[] =>
	json === null || fitsFile(record.study)
		? []
		: [
				`${json} has every figure, but not the drives behind them, which are too many for it: --csv writes any number of them.`,
			];

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
	async report(path: string, outcome: StudyOutcome, _request: StudyRequest, scenarioText: string): Promise<void> {
		const report = await studyReport(outcome, scenarioText);
		if (report !== null) writeFileSync(path, report);
	},
	async pack(path: string, outcome: StudyOutcome, request: StudyRequest, scenarioText: string): Promise<void> {
		const { version, resultDigest, partial } = outcome.provenance;
		if (partial) throw new Error('no command makes the figures of an interrupted study again');
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
