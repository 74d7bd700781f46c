import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import type { StratifiedKind } from '../../shared/replicates/replicates-result.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { choiceArgument } from '../../shared/words/study-arguments.ts';
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

const forVerdict = 'asks for a verdict, which takes drives drawn independently of one another';
const forIndependent = 'goes with drives drawn independently of one another';

/** Options that such a study does not follow, and why. */
const refusals = {
	until: forIndependent,
	digits: forIndependent,
	choice: forVerdict,
	require: forVerdict,
	'test-report': forVerdict,
	journal: forIndependent,
	csv: forIndependent,
	correlations: forIndependent,
	report: forIndependent,
	'report-with': forIndependent,
	pack: forIndependent,
};

type Options = Readonly<Record<string, OptionRecord>> &
	typeof workOptions & {
		readonly units: OptionRecord<number | null>;
		readonly draws: typeof drawsOption;
		readonly choice: OptionRecord<readonly ChoiceName[]>;
	};

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

/** What is given of these options; --choice both is what the study shows anyway. */
function refused(values: Readonly<Record<string, unknown>> & { readonly choice: readonly ChoiceName[] }): Problem[] {
	const given: typeof values = { ...values, choice: values.choice.length < choiceNames.length ? values.choice : [] };
	return Object.entries(refusals).flatMap(([option, why]) => {
		const value = given[option];
		if (value === null || value === false || (Array.isArray(value) && value.length === 0)) return [];
		const words = option === 'choice' ? choiceArgument(values.choice) : value === true ? '' : String(value);
		return [{ path: `--${option}`, value: words, message: `${why}: leave out --draws, or this` }];
	});
}
