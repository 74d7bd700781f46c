import { exitCodes } from './exit-codes.ts';
import { fileErrorWords } from './file-error.ts';

/** What a command knows of the terminal; tests give their own. */
export interface Terminal {
	/** Results. */
	out(text: string): void;
	/** Progress, problems and remarks. */
	err(text: string): void;
	/** Whether a person sees `err` as it is written, so that progress makes sense. */
	readonly isLive: boolean;
	/** Calls back when the user interrupts (Ctrl-C); returns a function that stops listening. */
	onInterrupt(callback: () => void): () => void;
}

/** The terminal this process runs in. */
export function processTerminal(): Terminal {
	let isTold = false;
	/** Files are written all the same; only the exit code tells a build of it. */
	const fail = (error: NodeJS.ErrnoException): void => {
		// a reader that has seen enough (`| head`) is no failure
		if (error.code === 'EPIPE' || isTold) return;
		isTold = true;
		process.stderr.write(`The output could not be written: ${fileErrorWords(error)}.\n`);
		process.on('exit', (code) => {
			if (code === exitCodes.done) process.exitCode = exitCodes.broken;
		});
	};
	process.stdout.on('error', fail);
	return {
		out(text) {
			// where the output is a file, it fails here and not by the event
			try {
				process.stdout.write(text);
			} catch (error) {
				fail(error as NodeJS.ErrnoException);
			}
		},
		err: (text) => void process.stderr.write(text),
		isLive: process.stderr.isTTY === true,
		onInterrupt(callback) {
			const signals = ['SIGINT', 'SIGTERM'] as const;
			let interrupted = false;
			const listener = (): void => {
				// whoever asks twice does not want to wait
				if (interrupted) process.exit(130);
				interrupted = true;
				callback();
			};
			for (const name of signals) process.on(name, listener);
			return () => {
				for (const name of signals) process.off(name, listener);
			};
		},
	};
}
