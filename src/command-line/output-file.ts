import { closeSync, existsSync, openSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { fileErrorWords } from './file-error.ts';

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

/** Writes a value as indented JSON. JSON has no infinity and no NaN: figures that are worse than any, or do not exist, are null. */
export function writeJson(path: string, value: unknown): void {
	writeFileSync(path, `${JSON.stringify(value, null, '\t')}\n`);
}
