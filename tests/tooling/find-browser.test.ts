import { execFileSync } from 'node:child_process';
import { chmodSync } from 'node:fs';
import { expect, test } from 'vitest';
import { findBrowser } from '../../src/tooling/find-browser.mjs';
import { temporaryFolder } from './temporary-folder.ts';

function folderWithProgram(name: string, script: string): string {
	const folder = temporaryFolder({ [name]: `#!/bin/sh\n${script}\n` });
	chmodSync(folder + name, 0o755);
	return folder;
}

test('a CHROME_BIN that is not there is an error that names it, not a skip', async () => {
	await expect(findBrowser({ CHROME_BIN: '/no/such/browser' })).rejects.toThrow(/No browser.*\/no\/such\/browser/);
});

test('a browser that is there and does not start is an error with its own words', async () => {
	const folder = folderWithProgram('broken', 'echo "cannot open display" >&2; exit 3');
	await expect(findBrowser({ CHROME_BIN: `${folder}broken` })).rejects.toThrow('cannot open display');
	const onPath = folderWithProgram('chromium', 'echo "library missing" >&2; exit 127');
	await expect(findBrowser({ PATH: onPath })).rejects.toThrow('library missing');
});

test('CHROME_BIN goes before the path, and the path before the packaged browser', async () => {
	const chosen = folderWithProgram('my-browser', 'exit 0');
	const installed = folderWithProgram('google-chrome', 'exit 0');
	const both = { CHROME_BIN: `${chosen}my-browser`, PATH: installed };
	expect((await findBrowser(both)).executablePath).toBe(`${chosen}my-browser`);
	expect((await findBrowser({ PATH: installed })).executablePath).toBe(`${installed}google-chrome`);
});

test.runIf(process.platform === 'linux' && process.arch === 'x64')(
	'with nothing installed, the packaged browser starts',
	async () => {
		const { executablePath, env } = await findBrowser({ PATH: temporaryFolder() });
		expect(execFileSync(executablePath, ['--version'], { env, encoding: 'utf8' })).toMatch(/^Chromium \d+/);
	},
	60_000,
);
