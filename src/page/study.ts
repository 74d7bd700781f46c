import { browserHost } from '../host/browser-host.ts';
import { createPool } from '../host/pool.ts';
import { runStudyInPool } from '../host/run-study.ts';
import type { Services } from './model/services.ts';

/** Studies on the page's own workers, which live as long as it does. */
export function studyRunner(): Services['study'] {
	const pool = createPool(browserHost());
	pool.warm();
	return (request, watch) => runStudyInPool({ ...request, ...watch }, pool);
}
