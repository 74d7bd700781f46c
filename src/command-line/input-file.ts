import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { noText } from '../../shared/scenario/file-kind.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { fileErrorWords } from './file-error.ts';

/** Bytes. The readers have limits of their own; these keep a wrong file from being read at all. */
const largestText = 16 * 1024 * 1024;
export const largestResult = 512 * 1024 * 1024;

/** The text of an input file, or what is wrong with it. */
export function readInput(
	path: string,
	fileWord: string,
	largest = largestText,
): { readonly text: string } | { readonly problems: Problem[] } {
	const input = readBytes(path, fileWord, largest);
	if ('problems' in input) return input;
	try {
		const decoder = new TextDecoder(encodingOf(input.bytes), { fatal: true, ignoreBOM: true });
		return { text: decoder.decode(input.bytes) };
	} catch {
		return { problems: [{ path: fileWord, value: path, message: noText }] };
	}
}

/** UTF-8 but where a byte order mark says UTF-16, as browsers read it too. */
function encodingOf([first, second]: Buffer): string {
	if (first === 0xff && second === 0xfe) return 'utf-16le';
	return first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
}

/** The same of a file that is no text. */
export function readBytes(
	path: string,
	fileWord: string,
	largest: number,
): { readonly bytes: Buffer } | { readonly problems: Problem[] } {
	const wrong = (message: string) => ({ problems: [{ path: fileWord, value: path, message }] });
	try {
		const file = openSync(path, 'r');
		try {
			const { size } = fstatSync(file);
			if (size > largest)
				return wrong(
					`is too large: ${Math.round(size / 1024 / 1024)} MB, at most ${largest / 1024 / 1024} MB are read`,
				);
			return { bytes: readFileSync(file) };
		} finally {
			closeSync(file);
		}
	} catch (error) {
		return wrong(`cannot be read: ${fileErrorWords(error)}`);
	}
}
