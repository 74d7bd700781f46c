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
	// a reader that has seen enough (`| head`) is no failure
	process.stdout.on('error', (error: NodeJS.ErrnoException) => {
		if (error.code !== 'EPIPE') throw error;
	});
	return {
		out: (text) => void process.stdout.write(text),
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
