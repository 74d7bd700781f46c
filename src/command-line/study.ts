import type { ChoiceName } from '../../shared/drive/drive.ts';
import { askFurther } from '../../shared/report/ask.ts';
import type { StoppingRule } from '../../shared/study/stopping-rule.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { columnsTopic } from './columns-help.ts';
import { wholeNumber, word } from './common-options.ts';
import { comparison } from './comparison.ts';
import { scenarioTopics } from './help.ts';
import type { OpenJournal } from './journal-file.ts';
import { journalOption, openedJournal } from './journal-option.ts';
import { readArguments } from './read-arguments.ts';
import { reportOptions } from './report-option.ts';
import { scenarioCommand } from './scenario-command.ts';
import { drawsOption, stratifiedStudy } from './stratified-study.ts';
import { packProblems, studyFileOptions, studyFileRemarks, studyFiles } from './study-files.ts';
import { isReportCutShort, runStudy, type StudyWork } from './study-outcome.ts';
import { studyProgress } from './study-progress.ts';
import { requireOptions, workOptions } from './work-options.ts';

const command = {
	name: 'study',
	purpose: 'compares half-bus and virtual-neutral sensing over many randomised drives.',
	file: 'SCENARIO.json',
	example: 'npm run --silent study -- scenarios/fan-24v.json --units 2000 --seed demo',
	options: {
		units: wholeNumber(
			'N',
			'Drives to simulate, 1 to 10 000 000; with --until, the most there may be. Default 1000; 20 000 until decided, 100 000 until settled; 1024 with other draws than independent ones.',
			null,
			[1, 10_000_000],
		),
		draws: drawsOption,
		until: word(
			{ decided: 'decided', settled: 'settled' } as const,
			'Ends the study when the verdict is decided, looked at after 100 drives, 125, 157 and so on; or when mean, standard deviation and 95 % limits of the drives’ errors stand still (JCGM 101, 7.9, batches of 10 000 drives).',
			null,
		),
		digits: wholeNumber(
			'N',
			'Significant digits of the standard deviation that must stand still until settled, 1 to 4. Default 1.',
			null,
			[1, 4],
		),
		choice: {
			...requireOptions.choice,
			sentence: 'Whose verdict --until decided waits for, and --require and --test-report ask for. Default both.',
		},
		require: requireOptions.require('Ends with 1 unless the verdict is “holds”.'),
		'test-report': requireOptions['test-report'],
		journal: journalOption,
		...reportOptions,
		...studyFileOptions,
		...workOptions,
	},
	topics: { ...scenarioTopics, columns: columnsTopic },
	remarks: [
		'The scenario says under “requirement” what a drive must keep, what share of drives must keep it and with what confidence it must be shown.',
		'Exit codes: 0 done; 1 done, --require was given and the verdict is not “holds”; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** Number of drives, or the most there may be, where it is not given. */
const defaultUnits = { number: 1000, decided: 20_000, settled: 100_000 };

/** Milliseconds: what a kill loses of each worker's time at most, and long against what keeping a shard costs. */
const journalShardTime = 400;

function stoppingRule(values: {
	readonly until: 'decided' | 'settled' | null;
	readonly digits: number | null;
	readonly choice: readonly ChoiceName[];
}): StoppingRule {
	if (values.until === 'decided') return { rule: 'decided', choices: values.choice };
	return values.until === 'settled' ? { rule: 'settled', digits: values.digits ?? 1 } : { rule: 'number' };
}

/** The study on independent draws, with its verdict. */
const independentStudy = scenarioCommand({
	record: command,
	optionProblems: ({ digits, until, report, pack, 'report-with': further }) => [
		...(digits !== null && until !== 'settled'
			? [{ path: '--digits', value: String(digits), message: 'goes with --until settled' }]
			: []),
		...(further.length > 0 && report === null && pack === null
			? [{ path: '--report-with', value: further.join(', '), message: 'goes with --report or --pack' }]
			: []),
		...packProblems(pack),
	],
	async ask(scenario, values, isClean, host) {
		const until = stoppingRule(values);
		const drives = { seed: values.seed, units: values.units ?? defaultUnits[until.rule] };
		const isReported = values.report !== null || values.pack !== null;
		const further = askFurther(values['report-with'], scenario, drives);
		const request: StudyWork & { readonly journal?: OpenJournal } = {
			scenario,
			...drives,
			until,
			report: isReported ? { further } : null,
		};
		if (values.journal === null || !isClean) return { request };
		const opened = await openedJournal(values.journal, request, host);
		if ('problems' in opened) return opened;
		const { journal, remarks } = opened;
		return { request: { ...request, journal, shardTime: journalShardTime }, remarks };
	},
	progress: (terminal, work) => studyProgress(terminal, work),
	run: runStudy,
	table: comparison,
	files: { ...studyFiles, journal: (_path, _outcome, { journal }) => journal?.close() },
	afterwards: (outcome, values) => [
		...studyFileRemarks(outcome, values),
		...(isReportCutShort(outcome) && !outcome.provenance.partial
			? ['Interrupted: the study is whole, its report is not.']
			: []),
	],
	isCutShort: isReportCutShort,
	gate: ({ verdict }, { choice }) =>
		choice.map((one) => ({
			name: `${choiceWords[one]} meets the requirement`,
			outcome: verdict[one].decision,
			sentence: verdict[one].sentence,
		})),
});

const onStratifiedDraws = stratifiedStudy(command);

/** The `study` command. @param host where its workers come from */
export const study: typeof independentStudy = (argv, terminal, host) =>
	(readArguments(argv, command).values.draws === null ? independentStudy : onStratifiedDraws)(argv, terminal, host);
