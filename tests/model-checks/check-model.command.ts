import { writeFileSync } from 'node:fs';
import { modelChecksSentence } from '../../shared/model-checks/model-checks-summary.ts';
import { wrapText } from '../../src/command-line/wrap-text.ts';
import { modelChecks } from './all-checks.ts';
import { checkTable } from './check-table.ts';
import { outcomeOf } from './model-check.ts';
import { summariseChecks } from './summarise-checks.ts';

const help = `npm run check-model [-- --write]

Prints every figure of the engine that is known from outside it: what it is,
where the expected figure comes from, what was expected, what the engine gives
and by how much the two differ. Ends with 1 if any is off.

  --write   also keeps the summary that reports cite
`;

/** The `check-model` command. @param summaryFile where the summary is kept */
export function checkModel(argv: readonly string[], summaryFile: string): number {
	const unknown = argv.filter((word) => word !== '--write');
	if (unknown.length > 0) {
		process.stdout.write(help);
		return unknown.includes('--help') || unknown.includes('-h') ? 0 : 2;
	}
	const areas = modelChecks.map(({ area, checks }) => ({ area, outcomes: checks.map(outcomeOf) }));
	for (const { area, outcomes } of areas) process.stdout.write(`${checkTable(area, outcomes)}\n`);
	const summary = summariseChecks(areas.flatMap(({ outcomes }) => outcomes));
	process.stdout.write(`${wrapText(modelChecksSentence(summary))}\n`);
	if (argv.includes('--write')) writeFileSync(summaryFile, `${JSON.stringify(summary, null, '\t')}\n`);
	return summary.held === summary.checks ? 0 : 1;
}
