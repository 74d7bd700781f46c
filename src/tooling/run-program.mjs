import { spawn } from 'node:child_process';
import { constants } from 'node:os';

/**
 * Runs a program to its end, with our streams unless told otherwise, and
 * passes on the signals that ask us to stop.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 * @returns {Promise<number>} exit code; 128 + signal number for a program ended by a signal, as shells have it
 */
export function runProgram(program, args, options = {}) {
	return new Promise((resolve, reject) => {
		const child = spawn(program, args, { stdio: 'inherit', ...options });
		/** @param {NodeJS.Signals} signal */
		const passOn = (signal) => {
			// a terminal sends Ctrl-C to the child itself
			if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
		};
		process.on('SIGINT', passOn);
		process.on('SIGTERM', passOn);
		const stopListening = () => {
			process.off('SIGINT', passOn);
			process.off('SIGTERM', passOn);
		};
		child.on('error', (error) => {
			stopListening();
			reject(error);
		});
		child.on('close', (code, signal) => {
			stopListening();
			resolve(code ?? 128 + (signal ? constants.signals[signal] : 0));
		});
	});
}
