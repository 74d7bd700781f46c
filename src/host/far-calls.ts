import { proxy, wrap } from 'comlink';
import type { CallServer, FarFunctions, Watched } from './serve-calls.ts';
import { settledCalls } from './settled-calls.ts';

type Watch = Readonly<Record<string, unknown>>;

/** Functions of another thread as if they were here. What they are watched with may be abort signals and callbacks. */
export interface FarCalls<Functions extends FarFunctions> {
	call<Name extends keyof Functions & string>(
		name: Name,
		request: Parameters<Functions[Name]>[0],
		watch?: Parameters<Functions[Name]>[1],
	): ReturnType<Functions[Name]>;
	/** Starts the thread, so that the first call need not wait for it. */
	start(): void;
}

/**
 * Calls to a thread that serve-calls.ts serves. When it dies, the calls in
 * flight reject and the next one starts a fresh thread. Every callback comes
 * before its call's answer.
 */
export function farCalls<Functions extends FarFunctions>(startWorker: () => Worker): FarCalls<Functions> {
	let thread: Thread | null = null;
	const alive = (): Thread => {
		thread ??= startThread(startWorker(), () => {
			thread = null;
		});
		return thread;
	};
	return {
		call: (name, request, watch = {}) => alive().call(name, request, watch) as ReturnType<Functions[typeof name]>,
		start: () => void alive(),
	};
}

type Thread = ReturnType<typeof startThread>;

function startThread(worker: Worker, onDeath: () => void) {
	const remote = wrap<CallServer>(worker);
	const { die, settled } = settledCalls(() => {
		worker.terminate();
		onDeath();
	});
	worker.addEventListener('error', (event) => {
		event.preventDefault();
		die(new Error(event.message ? `the engine failed: ${event.message}` : 'the engine could not be loaded'));
	});
	worker.addEventListener('messageerror', () => die(new Error('a message of the engine could not be read')));

	const watches = new Map<number, Watch>();
	let calls = 0;
	const listening = settled(() =>
		remote.listen(
			proxy((call: number, callback: string, given: readonly unknown[]) => {
				const told = watches.get(call)?.[callback];
				if (typeof told === 'function') told(...given);
			}),
		),
	);
	listening.catch(() => {}); // the calls that wait for it report it

	return {
		async call(name: string, request: unknown, watch: Watch): Promise<unknown> {
			calls += 1;
			const call = calls;
			const { watched, letGo } = crossing(watch, (signal) => void remote.abort(call, signal).catch(() => {}));
			watches.set(call, watch);
			try {
				await listening;
				return await settled(() => remote.call(name, call, request, watched()));
			} finally {
				watches.delete(call);
				letGo();
			}
		},
	};
}

/** A watch in names, and what tells the far side when one of its signals fires. */
function crossing(watch: Watch, abort: (signal: string) => void) {
	const callbacks = Object.keys(watch).filter((name) => typeof watch[name] === 'function');
	const signals = Object.entries(watch).flatMap(([name, value]) =>
		value instanceof AbortSignal ? [{ name, signal: value, fire: () => abort(name) }] : [],
	);
	for (const { signal, fire } of signals) signal.addEventListener('abort', fire, { once: true });
	return {
		watched: (): Watched => ({
			signals: Object.fromEntries(signals.map(({ name, signal }) => [name, signal.aborted])),
			callbacks,
		}),
		letGo(): void {
			for (const { signal, fire } of signals) signal.removeEventListener('abort', fire);
		},
	};
}
