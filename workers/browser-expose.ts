import { expose } from 'comlink';
import { type TaskList, workerEndpoint } from './worker-endpoint.ts';

/** Makes this Web Worker do the tasks of `api`. */
export function exposeInBrowser(api: TaskList): void {
	expose(workerEndpoint(api));
}
