import { choiceWords } from '../../shared/words/names.ts';
import { runFirmware } from '../host/run-firmware.ts';
import { wholeNumber } from './common-options.ts';
import { firmwareTable } from './firmware-table.ts';
import { type GateCheck, verdictCheck } from './gate.ts';
import { stagedProgress } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { requireOptions, workOptions, workRemarks } from './work-options.ts';

const command = {
	name: 'firmware',
	purpose: 'finds what firmware can take out of the angle error: the delay and the advance that null its mean.',
	file: 'SCENARIO.json',
	example: 'npm run --silent firmware -- scenarios/fan-24v.json --units 500',
	options: {
		units: wholeNumber('N', 'Drives of each run, 2 to 100 000. Default 500.', 500, [2, 100_000]),
		choice: requireOptions.choice,
		require: requireOptions.require('Ends with 1 unless the requirement holds for the fresh drives once tuned.'),
		'test-report': requireOptions['test-report'],
		...workOptions,
	},
	remarks: [
		'For each sensing choice, one compensated delay and one advance for all drives and operating points. An error that all drives share can be taken out, the spread from drive to drive cannot. Angle errors stay measured against the advance that the scenario asks for. What is found is confirmed on fresh drives.',
		...workRemarks('it does not hold once tuned'),
	],
};

/** The `firmware` command. */
export const firmware = scenarioCommand({
	record: command,
	ask: (scenario, { seed, units }) => ({ request: { scenario, seed, units } }),
	progress: stagedProgress,
	run: runFirmware,
	table: firmwareTable,
	gate: (result, { choice }) =>
		choice.map((one): GateCheck => {
			const name = `${choiceWords[one]} holds once tuned`;
			const verdict = result.choices[one].confirmed?.after.verdict;
			return verdict
				? verdictCheck(name, verdict)
				: { name, outcome: 'undecided', sentence: 'No fresh drives were run with the tuning.' };
		}),
});
