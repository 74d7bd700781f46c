/// <reference path="../../workers/node-adapter.d.ts" />
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { farSide } from './far-side.ts';
import { programDigest } from './node-program.ts';
import { type WorkerHandle, type WorkerHost, workerHandle } from './worker-handle.ts';

export interface NodeHost extends WorkerHost {
	/** Starts so many workers before any work is known, so that they load and compile meanwhile; `spawn` hands them out. */
	startAhead(workers: number): void;
	/** Ends those that nobody took: the process would wait for them. */
	endUnused(): void;
}

/** Worker threads. @param workerUrl the built workers/node-worker.ts */
export function nodeHost(workerUrl: URL): NodeHost {
	const ahead: WorkerHandle[] = [];
	return {
		cores: availableParallelism(),
		engineDigest: () => programDigest(workerUrl),
		spawn: () => ahead.shift() ?? startWorker(workerUrl),
		startAhead(workers) {
			for (let n = 0; n < workers; n += 1) {
				const worker = startWorker(workerUrl);
				worker.warmUp().catch(() => {}); // whoever takes it is told
				ahead.push(worker);
			}
		},
		endUnused() {
			for (const worker of ahead.splice(0)) worker.terminate();
		},
	};
}

function startWorker(workerUrl: URL): WorkerHandle {
	const worker = new Worker(workerUrl);
	return workerHandle({
		...farSide(nodeEndpoint(worker)),
		onDeath(callback) {
			worker.on('error', (error) => callback(new Error(`the worker failed: ${error.message}`)));
			worker.on('messageerror', () => callback(new Error('a message of the worker could not be read')));
			worker.on('exit', (code) => callback(new Error(`the worker ended by itself (exit code ${code})`)));
		},
		end: () => void worker.terminate(),
	});
}
