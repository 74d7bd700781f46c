import { errorMessage } from '../../shared/words/error-message.ts';
import type { TaskInput, TaskName, TaskOutput } from '../../workers/shard-api.ts';
import { ShardSizer } from './shard-sizer.ts';
import type { WorkerHandle, WorkerHost } from './worker-handle.ts';

/** A task over the indices 0 up to `total`, to be shared out. */
export interface Job<Name extends TaskName> {
	readonly name: Name;
	readonly input: TaskInput<Name>;
	/** First index; 0 if not given. */
	readonly from?: number;
	/** One past the last index. */
	readonly to: number;
	/** Takes a finished shard; shards come in any order. */
	readonly onShard: (output: TaskOutput<Name>, from: number, to: number) => void;
	/** Takes a shard that failed on two workers. */
	readonly onFailure: (from: number, to: number, message: string) => void;
	/** Indices done so far, failed ones included; at most ten times a second and once at the end. */
	readonly onProgress?: (done: number) => void;
	readonly signal?: AbortSignal | undefined;
	/** Ends the job gently: no further shard is begun, those under way are finished and no worker is lost. */
	readonly stop?: AbortSignal | undefined;
	/** Indices a shard; if not given, chosen as the work is timed. Never changes a result. */
	readonly shardSize?: number | undefined;
	/** Milliseconds a shard should take where its size is chosen. */
	readonly shardTime?: number | undefined;
	/** Milliseconds (at most 24 days) without a sign of life after which a worker is given up. */
	readonly silenceLimit?: number;
}

export interface Pool {
	readonly workers: number;
	/**
	 * Resolves when every index is done, failed or cancelled: with true if the
	 * job ran to its end, with false if `signal` or `stop` cut it short. Jobs run one after
	 * the other.
	 */
	run<Name extends TaskName>(job: Job<Name>): Promise<boolean>;
	/** Starts the workers that are not running, so that the next job need not wait for them. */
	warm(): void;
	/** Ends the workers while there is no work, for their memory; the next job starts fresh ones. */
	rest(): void;
	/** Why, of every worker that was ended in the middle of a shard and has not been told of yet. */
	takeLosses(): readonly string[];
	/** Ends all workers; a job under way fails its remaining shards. */
	close(): void;
}

const progressInterval = 100;
const defaultSilenceLimit = 60_000;

/**
 * Workers that share out jobs. A worker that throws, dies or falls silent in the
 * middle of a shard is ended and the shard run once more on a fresh one; if that
 * fails too, the shard is reported as failed and the job goes on.
 */
export function createPool(host: WorkerHost, workers = host.cores): Pool {
	const slots: Slot[] = Array.from({ length: Math.max(1, Math.floor(workers)) }, () => ({
		worker: null,
		isReady: false,
	}));
	const losses: string[] = [];
	let closed = false;
	let latest: Promise<unknown> = Promise.resolve();
	/** Whether any worker ever came up: if none does, nothing is gained by trying each shard twice. */
	let isProven = false;

	/** The slot's worker, once it is ready. */
	const ready = async (slot: Slot, signal?: AbortSignal): Promise<WorkerHandle> => {
		slot.worker ??= host.spawn();
		const { worker } = slot;
		await worker.warmUp({ signal });
		isProven = true;
		slot.isReady = slot.worker === worker;
		return worker;
	};
	const discard = (slot: Slot): void => {
		slot.worker?.terminate();
		slot.worker = null;
		slot.isReady = false;
	};

	const runNow = async <Name extends TaskName>(job: Job<Name>): Promise<boolean> => {
		const { name, input, from: first = 0, to: end, signal, silenceLimit = defaultSilenceLimit } = job;
		const sizer = new ShardSizer(slots.length, job.shardSize, job.shardTime);
		const progress = progressMeter(job.onProgress ?? (() => {}));
		let next = first;
		let isCut = false;
		const isCancelled = (): boolean => signal?.aborted === true;

		/** One try at a shard, on this slot's worker. */
		const attempt = async (slot: Slot, from: number, to: number): Promise<TaskOutput<Name>> => {
			if (closed) throw new Error('the workers were ended');
			const watch = silenceWatch(silenceLimit, () => discard(slot));
			let isBegun = false;
			try {
				// without a wait where there is none, so that the call is on its way before this thread turns to anything else
				const worker = slot.isReady && slot.worker ? slot.worker : await ready(slot, signal);
				watch.seen();
				isBegun = true;
				const startedAt = performance.now();
				const output = await worker.call(name, input, from, to, {
					signal,
					onProgress(done) {
						watch.seen();
						progress.under(slot, done);
					},
				});
				sizer.took(to - from, performance.now() - startedAt);
				return output;
			} catch (error) {
				const reason = watch.hasFired
					? new Error(`the worker gave no sign of life for ${silenceLimit / 1000} s`)
					: error;
				if (isBegun && !isCancelled() && !closed) losses.push(errorMessage(reason));
				throw reason;
			} finally {
				watch.stop();
			}
		};

		/** Puts the slot's worker to its next shard; null where there is none to begin. */
		const begin = (slot: Slot) => {
			if (next >= end || isCancelled() || job.stop?.aborted === true) return null;
			const from = next;
			const to = Math.min(end, from + sizer.next(end - from));
			next = to;
			const outcome = twice(
				() => attempt(slot, from, to),
				isCancelled,
				() => discard(slot),
			);
			return { from, to, outcome };
		};

		const work = async (slot: Slot): Promise<void> => {
			for (let shard = begin(slot); shard !== null; ) {
				const { from, to } = shard;
				const outcome = await shard.outcome;
				if (outcome === 'cancelled') {
					isCut = true;
					return;
				}
				if ('output' in outcome) {
					// the worker goes on while this thread takes in what it has done
					shard = begin(slot);
					job.onShard(outcome.output, from, to);
					progress.finished(slot, to - from);
				} else {
					job.onFailure(from, to, outcome.message);
					progress.finished(slot, to - from);
					// where no worker ever came up, or all were ended, the rest would only fail one by one
					if ((!isProven || closed) && next < end) {
						const rest = next;
						next = end;
						job.onFailure(rest, end, outcome.message);
						progress.finished(slot, end - rest);
					}
					shard = begin(slot);
				}
			}
		};
		await Promise.all(slots.map(work));
		progress.end();
		return next >= end && !isCut;
	};

	return {
		workers: slots.length,
		run(job) {
			const turn = latest.then(() => runNow(job));
			latest = turn.catch(() => {});
			return turn;
		},
		warm() {
			for (const slot of closed ? [] : slots) {
				const coming = ready(slot);
				const { worker } = slot;
				coming.catch(() => {
					if (slot.worker === worker) discard(slot);
				});
			}
		},
		rest() {
			for (const slot of slots) discard(slot);
		},
		takeLosses: () => losses.splice(0),
		close() {
			closed = true;
			for (const slot of slots) discard(slot);
		},
	};
}

type Outcome<T> = { readonly output: T } | { readonly message: string };

/** Tries, cleans up after a failure, and tries once more. */
async function twice<T>(
	attempt: () => Promise<T>,
	isCancelled: () => boolean,
	cleanUp: () => void,
): Promise<Outcome<T> | 'cancelled'> {
	let message = '';
	for (let tries = 0; tries < 2; tries += 1) {
		try {
			return { output: await attempt() };
		} catch (error) {
			cleanUp();
			if (isCancelled()) return 'cancelled';
			message = errorMessage(error);
		}
	}
	return { message };
}

/** A place for one worker; a fresh one is started when work comes. */
interface Slot {
	worker: WorkerHandle | null;
	/** Whether that worker has warmed up. */
	isReady: boolean;
}

/** The longest time a timer can wait, ms. */
const longestTimer = 2 ** 31 - 1;

/** Calls `onSilence` once when `seen` was not called for so many milliseconds. */
function silenceWatch(milliseconds: number, onSilence: () => void) {
	const wait = Math.min(milliseconds, longestTimer);
	const watch = {
		hasFired: false,
		seen(): void {
			clearTimeout(timer);
			timer = setTimeout(fire, wait);
		},
		stop: (): void => clearTimeout(timer),
	};
	const fire = (): void => {
		watch.hasFired = true;
		onSilence();
	};
	let timer = setTimeout(fire, wait);
	return watch;
}

/** Adds up finished shards and those under way, and reports at most every 100 ms. */
function progressMeter(report: (done: number) => void) {
	const underWay = new Map<Slot, number>();
	let done = 0;
	let reportedAt = performance.now();
	const total = (): number => [...underWay.values()].reduce((sum, part) => sum + part, done);
	const tell = (): void => {
		const now = performance.now();
		if (now - reportedAt < progressInterval) return;
		reportedAt = now;
		report(total());
	};
	return {
		under(slot: Slot, part: number): void {
			underWay.set(slot, part);
			tell();
		},
		finished(slot: Slot, count: number): void {
			underWay.delete(slot);
			done += count;
			tell();
		},
		end: (): void => report(done),
	};
}
