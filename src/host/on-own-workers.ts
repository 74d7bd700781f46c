import { createPool, type Pool } from './pool.ts';
import { withLosses } from './with-losses.ts';
import type { WorkerHost } from './worker-handle.ts';

/**
 * The same work on workers that are started for it and ended after it; `workers`: as many as the machine suits if not
 * given. Its result tells of those that were lost.
 */
export const onOwnWorkers =
	<Request, Result>(runInPool: (request: Request, pool: Pool) => Promise<Result>) =>
	async (request: Request & { readonly workers?: number | undefined }, host: WorkerHost): Promise<Result> => {
		const pool = createPool(host, request.workers);
		try {
			return withLosses(await runInPool(request, pool), pool);
		} finally {
			pool.close();
		}
	};
