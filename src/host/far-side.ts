import { type Endpoint, proxy, wrap } from 'comlink';
import type { WorkerEndpoint } from '../../workers/worker-endpoint.ts';
import type { Remote } from './worker-handle.ts';

/** What a worker offers, over comlink, whichever kind of thread it is. */
export function farSide(endpoint: Endpoint): Pick<Remote, keyof WorkerEndpoint> {
	const remote = wrap<WorkerEndpoint>(endpoint);
	return {
		listen: (callback) => remote.listen(proxy(callback)),
		warmUp: () => remote.warmUp(),
		call: (name, input, from, to) => remote.call(name, input, from, to),
	};
}
