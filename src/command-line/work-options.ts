import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { choiceArgument } from '../../shared/words/study-arguments.ts';
import type { OptionRecord } from './command.ts';
import { jsonOption, text, wholeNumber, word } from './common-options.ts';

/** Options that every command has that runs randomised drives. */
export const workOptions = {
	seed: text('TEXT', 'Draws the drives: the same seed, the same drives. Default demo.', 'demo', 200),
	workers: wholeNumber(
		'N',
		'Worker threads, 1 to 256. Default: as many as the machine has cores. No figure depends on it.',
		null,
		[1, 256],
	),
	json: jsonOption,
};

/** Options of a command that can be a gate: whose verdict, and whether the exit code tells it. */
export const requireOptions = {
	choice: word(
		{
			'half-bus': ['halfBus'],
			'virtual-neutral': ['virtualNeutral'],
			both: choiceNames,
		} as Readonly<Record<string, readonly ChoiceName[]>>,
		'Whose verdict --require and --test-report ask for. Default both.',
		choiceNames as readonly ChoiceName[],
	),
	require: (sentence: string): OptionRecord<boolean> => ({
		sentence: `${sentence} What it found closes the output, in plain ASCII.`,
		fallback: false,
	}),
	'test-report': text(
		'FILE.xml',
		'Also write what --require asks for, and what was found, as test cases in the XML that continuous-integration servers read.',
		null,
		4096,
	),
};

/** One choice alone, where nothing asks for a verdict: it would be passed over in silence. */
export function idleChoice(values: {
	readonly choice?: readonly ChoiceName[];
	readonly require?: boolean;
	readonly 'test-report'?: string | null;
	readonly until?: 'decided' | 'settled' | null;
}): Problem[] {
	const { choice = choiceNames, require: isRequired, 'test-report': report, until } = values;
	const isAsked = isRequired === true || typeof report === 'string' || until === 'decided';
	if (isAsked || choice.length === choiceNames.length) return [];
	const asking = ['--require', '--test-report', ...(until === undefined ? [] : ['--until decided'])];
	const message = `goes with ${asking.slice(0, -1).join(', ')} or ${asking.at(-1)}: every other figure is of both choices`;
	return [{ path: '--choice', value: choiceArgument(choice), message }];
}

/** What every command says at the end of its help. @param unless when --require ends with 1 */
export const workRemarks = (unless: string): readonly string[] => [
	'The scenario says under “requirement” what a drive must keep, what share of drives must keep it and with what confidence it must be shown.',
	`Exit codes: 0 done; 1 done, --require was given and ${unless}; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.`,
	'All figures are simulated estimates; measurement on real hardware decides.',
];
