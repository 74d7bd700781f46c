import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { fileErrorWords } from './file-error.ts';

/** The readers have limits of their own; this one keeps a wrong file from being read at all. */
const largest = 16 * 1024 * 1024;

/** The text of an input file, or what is wrong with it. */
export function readInput(
	path: string,
	fileWord: string,
): { readonly text: string } | { readonly problems: Problem[] } {
	const wrong = (message: string) => ({ problems: [{ path: fileWord, value: path, message }] });
	try {
		const file = openSync(path, 'r');
		try {
			const { size } = fstatSync(file);
			if (size > largest)
				return wrong(
					`is too large: ${Math.round(size / 1024 / 1024)} MB, at most ${largest / 1024 / 1024} MB are read`,
				);
			return { text: readFileSync(file, 'utf8') };
		} finally {
			closeSync(file);
		}
	} catch (error) {
		return wrong(`cannot be read: ${fileErrorWords(error)}`);
	}
}
