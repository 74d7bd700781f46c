/**
 * Calls to another thread that always settle: comlink leaves a call pending for
 * ever when its thread dies or is ended.
 *
 * @param end ends the thread and lets go of the far side
 */
export function settledCalls(end: () => void) {
	const pending = new Set<(error: Error) => void>();
	let death: Error | null = null;
	const die = (error: Error): void => {
		if (death !== null) return;
		death = error;
		end();
		for (const reject of pending) reject(error);
		pending.clear();
	};
	return {
		/** The thread has failed, or is to be ended: calls in flight and later ones reject. */
		die,
		/** What `ask` answers; rejects when the thread dies first. An abort kills it. */
		settled: <T>(ask: () => Promise<T>, signal?: AbortSignal): Promise<T> =>
			new Promise<T>((resolve, reject) => {
				const abort = (): void => die(new Error('the work was cancelled'));
				if (signal?.aborted) abort();
				if (death !== null) return reject(death);
				pending.add(reject);
				signal?.addEventListener('abort', abort, { once: true });
				ask()
					.then(resolve, reject)
					.finally(() => {
						pending.delete(reject);
						signal?.removeEventListener('abort', abort);
					});
			}),
	};
}
