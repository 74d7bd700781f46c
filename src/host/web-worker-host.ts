import { farSide } from './far-side.ts';
import { type WorkerHost, workerHandle } from './worker-handle.ts';

/** Web Workers, however they are started. */
export function webWorkerHost(start: () => Worker): WorkerHost {
	return {
		cores: navigator.hardwareConcurrency || 2,
		spawn() {
			const worker = start();
			return workerHandle({
				...farSide(worker),
				onDeath(callback) {
					worker.addEventListener('error', (event) => {
						event.preventDefault();
						callback(
							new Error(event.message ? `the worker failed: ${event.message}` : 'the worker could not be loaded'),
						);
					});
					worker.addEventListener('messageerror', () =>
						callback(new Error('a message of the worker could not be read')),
					);
				},
				end: () => worker.terminate(),
			});
		},
	};
}
