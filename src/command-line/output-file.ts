import { closeSync, existsSync, openSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { jsonText } from '../../shared/results/json-text.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { fileErrorWords } from './file-error.ts';
import type { Terminal } from './terminal.ts';
import { wrapText } from './wrap-text.ts';

/** What would keep results from being written to `path`: found out before hours are spent on them. */
export function outputProblems(option: string, path: string | null, inputPath: string): Problem[] {
	if (path === null) return [];
	const isNew = !existsSync(path);
	try {
		closeSync(openSync(path, 'a'));
		if (isNew) rmSync(path);
		else if (existsSync(inputPath) && realpathSync(path) === realpathSync(inputPath)) {
			return [{ path: option, value: path, message: 'is the input file, which would be lost' }];
		}
		return [];
	} catch (error) {
		return [{ path: option, value: path, message: `cannot be written: ${fileErrorWords(error)}` }];
	}
}

/** Two options that name one file: the later would overwrite what the earlier wrote. */
export function sameFileProblems(
	option: string,
	path: string,
	others: readonly { readonly option: string; readonly path: string }[],
): Problem[] {
	return others
		.filter((other) => resolve(other.path) === resolve(path))
		.map((other) => ({ path: option, value: path, message: `is the file that ${other.option} writes` }));
}

/** Writes a value as JSON, as result files have it: infinite figures are 1e999, those that do not exist null. */
export function writeJson(path: string, value: unknown): void {
	writeFileSync(path, `${jsonText(value)}\n`);
}

/** Has a file written; where that fails, the terminal is told why. @returns whether it was written */
export async function writeOutput(
	path: string,
	terminal: Pick<Terminal, 'err'>,
	write: (path: string) => void | Promise<void>,
): Promise<boolean> {
	try {
		await write(path);
		return true;
	} catch (error) {
		terminal.err(`${wrapText(`${path} could not be written: ${fileErrorWords(error)}`)}\n`);
		return false;
	}
}
