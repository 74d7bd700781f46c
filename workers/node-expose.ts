import { parentPort } from 'node:worker_threads';
import { expose } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { type TaskList, workerEndpoint } from './worker-endpoint.ts';

/** Makes this worker thread do the tasks of `api`. */
export function exposeInNode(api: TaskList): void {
	if (parentPort === null) throw new Error('this file is to be started as a worker thread');
	expose(workerEndpoint(api), nodeEndpoint(parentPort));
}
