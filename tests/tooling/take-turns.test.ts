import { spawnSync } from 'node:child_process';
import { lstatSync, symlinkSync } from 'node:fs';
import { expect, test } from 'vitest';
import { takeTurns } from '../../src/tooling/take-turns.mjs';
import { temporaryFolder } from './temporary-folder.ts';

test('of 5 that want to work at once, never two do', async () => {
	const turn = `${temporaryFolder()}inner/turn`;
	let working = 0;
	let most = 0;
	const work = async () => {
		working += 1;
		most = Math.max(most, working);
		await new Promise((resolve) => setTimeout(resolve, 5));
		working -= 1;
	};
	await Promise.all(Array.from({ length: 5 }, () => takeTurns(turn, work)));
	expect(most).toBe(1);
	expect(lstatSync(turn, { throwIfNoEntry: false })).toBeUndefined();
});

test('a failure passes the turn on, and so does a holder that was killed', async () => {
	const turn = `${temporaryFolder()}turn`;
	await expect(takeTurns(turn, () => Promise.reject(new Error('no room')))).rejects.toThrow('no room');
	const { pid: ended } = spawnSync(process.execPath, ['--version']);
	symlinkSync(String(ended), turn);
	expect(await takeTurns(turn, async () => 'done')).toBe('done');
});
