import { webWorkerHost } from './web-worker-host.ts';
import type { WorkerHost } from './worker-handle.ts';

/** Web Workers of the built page. @param start other than the project's own worker only in tests */
export const browserHost = (start: () => Worker = startWorker): WorkerHost => webWorkerHost(start);

// in one expression: only so does Vite see that the worker is to be built
const startWorker = (): Worker =>
	new Worker(new URL('../../workers/browser-worker.ts', import.meta.url), { type: 'module' });
