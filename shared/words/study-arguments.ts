import type { ChoiceName } from '../drive/drive.ts';
import type { StoppingRule } from '../study/stopping-rule.ts';

interface Asked {
	readonly seed: string;
	readonly units: number;
	readonly until?: StoppingRule | undefined;
}

/** Options of the `study` command that ask for the same drives, and for the same end of the study. */
export function studyArguments({ seed, units, until }: Asked): readonly string[] {
	const asked = [`--seed=${seed}`, '--units', String(units)];
	if (until?.rule === 'decided') {
		asked.push('--until', 'decided', '--choice', choiceArgument(until.choices));
	}
	if (until?.rule === 'settled') asked.push('--until', 'settled', '--digits', String(until.digits));
	return asked;
}

/** How the choices are named to `--choice`. */
export function choiceArgument([only, ...others]: readonly ChoiceName[]): string {
	if (others.length > 0) return 'both';
	return only === 'halfBus' ? 'half-bus' : 'virtual-neutral';
}

/** A line for a terminal: what is not plain stands in double quotes, which all shells take. */
export const terminalLine = (words: readonly string[]): string =>
	words.map((word) => (/^[\w./=-]+$/.test(word) ? word : `"${word}"`)).join(' ');

/** Whether some shell would read one of the words otherwise, quotes or not. */
export const isUnsafeInTerminal = (words: readonly string[]): boolean => words.some((word) => /["$`\\%!]/.test(word));
