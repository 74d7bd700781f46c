import { spawn } from 'node:child_process';
import { sep } from 'node:path';
import type { Terminal } from '../terminal.ts';
import { packed } from './manifest.ts';

/** What a run of the packed program ended with, and its last words. */
export interface PackedRun {
	/** Null where a signal ended it. */
	readonly code: number | null;
	readonly words: string;
}

/**
 * Runs the program of a pack in the folder it is unpacked to, with Node alone: no
 * environment, and no files but the folder's as far as this Node can keep it to them.
 */
export function runPacked(
	folder: string,
	args: readonly string[],
	onInterrupt: Terminal['onInterrupt'],
): Promise<PackedRun> {
	const child = spawn(process.execPath, [...permissionFlags(folder), packed.program, ...args], {
		cwd: folder,
		env: {},
		stdio: ['ignore', 'ignore', 'pipe'],
	});
	const stopListening = onInterrupt(() => child.kill('SIGTERM'));
	let words = '';
	child.stderr.setEncoding('utf8').on('data', (text: string) => {
		words = (words + text).slice(-2000);
	});
	return new Promise((resolve, reject) => {
		child.on('error', reject);
		child.on('close', (code) => {
			stopListening();
			resolve({ code, words });
		});
	});
}

function permissionFlags(folder: string): string[] {
	const known = process.allowedNodeEnvironmentFlags;
	const flag = ['--permission', '--experimental-permission'].find((name) => known.has(name));
	if (flag === undefined) return [];
	const inside = `${folder}${sep}*`;
	return [flag, '--no-warnings', `--allow-fs-read=${inside}`, `--allow-fs-write=${inside}`, '--allow-worker'];
}
