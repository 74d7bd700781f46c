import type { TaskInput, TaskName, TaskOutput } from '../../workers/shard-api.ts';
import { settledCalls } from './settled-calls.ts';

/** One running worker, as the pool sees it. It does one call at a time. */
export interface WorkerHandle {
	/** Answers once the worker is loaded and its hot loop compiled; asked again, at once. */
	warmUp(options?: Pick<CallOptions, 'signal'>): Promise<void>;
	/**
	 * Does one task over the indices `from` up to `to`. Rejects if the task
	 * throws, the worker dies or is terminated, or `signal` aborts (which
	 * terminates the worker: nothing else stops a busy one).
	 */
	call<Name extends TaskName>(
		name: Name,
		input: TaskInput<Name>,
		from: number,
		to: number,
		options?: CallOptions,
	): Promise<TaskOutput<Name>>;
	/** Ends the worker; calls in flight reject. */
	terminate(): void;
}

export interface CallOptions {
	readonly signal?: AbortSignal | undefined;
	/** Indices done so far; also a sign of life. */
	readonly onProgress?: (done: number) => void;
}

/** Where workers come from: browser-host.ts, node-host.ts. */
export interface WorkerHost {
	spawn(): WorkerHandle;
	/** Workers that suit this machine. */
	readonly cores: number;
	/** SHA-256 (hex) of the program that the workers run, where the host can tell it: equal digests, equal figures. */
	readonly engineDigest?: () => string;
}

/** The far side as a host file hands it over, with comlink already taken care of. */
export interface Remote {
	listen(callback: (from: number, done: number) => void): Promise<void>;
	warmUp(): Promise<void>;
	call(name: string, input: unknown, from: number, to: number): Promise<unknown>;
	/** Calls back, once, when the worker has failed or ended. */
	onDeath(callback: (error: Error) => void): void;
	/** Ends the thread and lets go of the far side. */
	end(): void;
}

/** Turns a far side into a handle whose calls always settle. */
export function workerHandle(remote: Remote): WorkerHandle {
	const { die, settled } = settledCalls(() => remote.end());
	let listener: { readonly from: number; readonly onProgress: (done: number) => void } | null = null;

	remote.onDeath(die);
	// progress of an earlier call may come in late, over a channel of its own: `from` tells
	const listening = settled(() =>
		remote.listen((from, done) => {
			if (listener?.from === from) listener.onProgress(done);
		}),
	);
	listening.catch(() => {}); // the calls that wait for it report it

	let warm: Promise<void> | null = null;

	return {
		warmUp({ signal } = {}) {
			warm ??= listening.then(() => settled(() => remote.warmUp()));
			const ready = warm;
			ready.catch(() => {}); // a dead worker rejects below before anyone waits for this
			return settled(() => ready, signal);
		},
		async call<Name extends TaskName>(
			name: Name,
			input: TaskInput<Name>,
			from: number,
			to: number,
			{ signal, onProgress = () => {} }: CallOptions = {},
		) {
			listener = { from, onProgress };
			try {
				return (await settled(() => remote.call(name, input, from, to), signal)) as TaskOutput<Name>;
			} finally {
				listener = null;
			}
		},
		terminate: () => die(new Error('the worker was terminated')),
	};
}
