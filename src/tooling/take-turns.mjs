import { mkdirSync, readlinkSync, rmSync, symlinkSync } from 'node:fs';
import { dirname } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

/**
 * Does some work while no other process does work under the same name.
 *
 * @template T
 * @param {string} turn a link that exists exactly while the work is done; it points to the number of the process
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function takeTurns(turn, work) {
	mkdirSync(dirname(turn), { recursive: true });
	while (!take(turn)) await wait(50);
	try {
		return await work();
	} finally {
		rmSync(turn, { force: true });
	}
}

/**
 * @param {string} turn
 * @returns {boolean} whether it is ours now
 */
function take(turn) {
	try {
		symlinkSync(String(process.pid), turn); // made whole or not at all, unlike a file with something in it
		return true;
	} catch (error) {
		if (/** @type {NodeJS.ErrnoException} */ (error).code !== 'EEXIST') throw error;
	}
	try {
		process.kill(Number(readlinkSync(turn)), 0); // signal 0 only asks whether it is there
	} catch {
		rmSync(turn, { force: true }); // it was killed at its work
	}
	return false;
}
