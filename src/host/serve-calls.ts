import { type Endpoint, expose } from 'comlink';

/** What one thread does for another: plain data in and out, and what is watched meanwhile (abort signals, callbacks) beside it. */
// biome-ignore lint/suspicious/noExplicitAny: each function has its own request, watch and answer
export type FarFunction = (request: any, watch: any) => Promise<unknown>;
export type FarFunctions = Readonly<Record<string, FarFunction>>;

/** A call's watch as it crosses: names, since neither signals nor functions can be cloned. */
export interface Watched {
	/** Abort signals, and whether they have fired already. */
	readonly signals: Readonly<Record<string, boolean>>;
	readonly callbacks: readonly string[];
}

type Tell = (call: number, callback: string, given: readonly unknown[]) => unknown;

/**
 * Does `functions` for the page (far-calls.ts is the near side).
 *
 * @param endpoint where the page listens; this worker's own if not given
 */
export function serveCalls(functions: FarFunctions, endpoint?: Endpoint): void {
	expose(callServer(functions), endpoint);
}

export type CallServer = ReturnType<typeof callServer>;

function callServer(functions: FarFunctions) {
	let tell: Tell = () => {};
	const ends = new Map<number, ReadonlyMap<string, AbortController>>();
	return {
		/** One listener for the worker's whole life, so that no call leaves a callback behind. */
		listen(callback: Tell): void {
			tell = callback;
		},
		async call(name: string, call: number, request: unknown, { signals, callbacks }: Watched): Promise<unknown> {
			const wanted = functions[name];
			if (wanted === undefined) throw new Error(`nothing here is called ${name}`);
			const own = new Map(Object.keys(signals).map((signal) => [signal, new AbortController()]));
			ends.set(call, own);
			for (const [signal, hasFired] of Object.entries(signals)) if (hasFired) own.get(signal)?.abort();
			/** The latest callback, until it has been heard. */
			let told: unknown;
			const watch = Object.fromEntries([
				...[...own].map(([signal, controller]) => [signal, controller.signal]),
				...callbacks.map((callback) => [
					callback,
					(...given: unknown[]) => {
						told = tell(call, callback, given);
					},
				]),
			]);
			try {
				return await wanted(request, watch);
			} finally {
				ends.delete(call);
				// callbacks have a channel of their own: the answer must not overtake what they hand over
				await told;
			}
		},
		abort(call: number, signal: string): void {
			ends.get(call)?.get(signal)?.abort();
		},
	};
}
