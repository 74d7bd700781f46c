import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname } from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder with the given files, gone after the test; its path ends in a slash. */
export function temporaryFolder(files: Readonly<Record<string, string>> = {}): string {
	const folder = `${realpathSync(mkdtempSync(`${tmpdir()}/anglespread-`))}/`;
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(folder + path), { recursive: true });
		writeFileSync(folder + path, text);
	}
	return folder;
}
