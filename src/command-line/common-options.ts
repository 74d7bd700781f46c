import { nearestName } from '../../shared/scenario/nearest-name.ts';
import { oneOf } from '../../shared/scenario/read-entry.ts';
import { count } from '../../shared/words/figures.ts';
import type { OptionRecord } from './command.ts';

/** A whole number within limits. */
export function wholeNumber<T>(
	placeholder: string,
	sentence: string,
	fallback: T,
	[least, most]: readonly [number, number],
): OptionRecord<number | T> {
	return {
		placeholder,
		sentence,
		fallback,
		read(text) {
			const value = Number(text);
			return /^\d+$/.test(text) && value >= least && value <= most
				? { value }
				: { problem: `must be a whole number from ${count(least)} to ${count(most)}` };
		},
	};
}

/**
 * One of a few words, each standing for a value.
 *
 * @param meant other words that one might write, and which of the words is meant
 */
export function word<T, F>(
	values: Readonly<Record<string, T>>,
	sentence: string,
	fallback: F,
	meant: Readonly<Record<string, string>> = {},
): OptionRecord<T | F> {
	const words = Object.keys(values);
	return {
		placeholder: words.join('|'),
		sentence,
		fallback,
		read(text) {
			if (Object.hasOwn(values, text)) return { value: values[text] as T };
			const near = Object.hasOwn(meant, text) ? meant[text] : nearestName(text, words);
			return { problem: `must be ${oneOf(words)}${near === undefined ? '' : `; did you mean ${near}?`}` };
		},
	};
}

/** A text that is not empty. */
export function text<T>(placeholder: string, sentence: string, fallback: T, longest: number): OptionRecord<string | T> {
	return {
		placeholder,
		sentence,
		fallback,
		read: (value) =>
			value.length > 0 && value.length <= longest ? { value } : { problem: `must have 1 to ${longest} characters` },
	};
}

export const jsonOption = text('FILE', 'Also write the results to this file, as JSON.', null, 4096);
