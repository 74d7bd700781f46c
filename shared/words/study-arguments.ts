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
		const [only, ...others] = until.choices;
		const choice = others.length > 0 ? 'both' : only === 'halfBus' ? 'half-bus' : 'virtual-neutral';
		asked.push('--until', 'decided', '--choice', choice);
	}
	if (until?.rule === 'settled') asked.push('--until', 'settled', '--digits', String(until.digits));
	return asked;
}

/** A line for a terminal: what is not plain stands in double quotes, which all shells take. */
export const terminalLine = (words: readonly string[]): string =>
	words.map((word) => (/^[\w./=-]+$/.test(word) ? word : `"${word}"`)).join(' ');

/** Whether some shell would read one of the words otherwise, quotes or not. */
export const isUnsafeInTerminal = (words: readonly string[]): boolean => words.some((word) => /["$`\\%!]/.test(word));
