import type { StratifiedKind } from '../../shared/replicates/replicates-result.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { onOwnWorkers } from '../host/on-own-workers.ts';
import { runReplicatesInPool } from '../host/run-replicates.ts';
import type { CommandRecord, OptionRecord } from './command.ts';
import { word } from './common-options.ts';
import { progressLine } from './progress-line.ts';
import { replicatesTable } from './replicates-table.ts';
import { scenarioCommand } from './scenario-command.ts';
import type { workOptions } from './work-options.ts';

/** Enough that Student's t is near the normal (2.13 against 1.96), few enough that each replicate fills its strata. */
const replicates = 16;
/** 64 drives of each replicate. */
const defaultUnits = 1024;

export const drawsOption: OptionRecord<StratifiedKind | null> = word(
	{ independent: null, latin: 'latin', sobol: 'sobol' } as Readonly<Record<string, StratifiedKind | null>>,
	`How the drives’ parts are drawn: independently of one another; or in ${replicates} independent replicates, each a Latin hypercube or scrambled Sobol’ points. These estimate means from fewer drives, with intervals over the replicates, and give no verdict. Default independent.`,
	null,
);

/** What hangs on drives that are independent of one another, or on the result file of such a study. */
const forIndependent = [
	'until',
	'digits',
	'require',
	'test-report',
	'journal',
	'csv',
	'report',
	'report-with',
	'pack',
] as const;

type Options = Readonly<Record<string, OptionRecord>> &
	typeof workOptions & { readonly units: OptionRecord<number | null>; readonly draws: typeof drawsOption };

/** A study whose drives are drawn in replicates of stratified draws. @param record of the study's command */
export const stratifiedStudy = <Chosen extends Options>(record: CommandRecord<Chosen>) =>
	scenarioCommand({
		record: record as unknown as CommandRecord<Options>,
		optionProblems: (values) => [...unitProblems(values.draws, values.units), ...refused(values)],
		ask: (scenario, { seed, units, draws }) => ({
			request: { scenario, seed, draws: draws ?? 'sobol', replicates, units: (units ?? defaultUnits) / replicates },
		}),
		progress: (terminal, { units }) => progressLine(terminal, replicates * units),
		run: onOwnWorkers(runReplicatesInPool),
		table: replicatesTable,
	});

function unitProblems(draws: StratifiedKind | null, units: number | null): Problem[] {
	if (units === null) return [];
	const each = units / replicates;
	const isFit =
		draws === 'sobol' ? Number.isInteger(Math.log2(each)) && each >= 2 : Number.isInteger(each) && each >= 2;
	const must =
		draws === 'sobol'
			? `must be ${replicates} times a power of two with --draws sobol: 512, 1024, 2048 …`
			: `must be ${replicates} times a whole number of at least 2 with --draws latin: 512, 1008 …`;
	return isFit ? [] : [{ path: '--units', value: String(units), message: must }];
}

function refused(values: Readonly<Record<string, unknown>>): Problem[] {
	return forIndependent.flatMap((option) => {
		const value = values[option];
		const isGiven = value !== null && value !== false && !(Array.isArray(value) && value.length === 0);
		return isGiven
			? [
					{
						path: `--${option}`,
						value: value === true ? '' : String(value),
						message: 'needs drives drawn independently of one another: leave out --draws',
					},
				]
			: [];
	});
}
