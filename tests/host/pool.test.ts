import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createPool, type Job } from '../../src/host/pool.ts';
import type { CallOptions, WorkerHandle, WorkerHost } from '../../src/host/worker-handle.ts';

/** Does one shard of a made-up task in this thread; rejects if it throws. */
type Work = (from: number, to: number, onProgress: (done: number) => void, worker: number) => Promise<void> | void;

/** Workers without threads: what the pool makes of them is the same. */
function madeUpHost(work: Work): WorkerHost & { readonly spawned: () => number; readonly running: () => number } {
	let spawned = 0;
	let running = 0;
	return {
		cores: 2,
		spawned: () => spawned,
		running: () => running,
		spawn() {
			const worker = spawned;
			spawned += 1;
			running += 1;
			let die: (error: Error) => void = () => {};
			let isAlive = true;
			const death = new Promise<never>((_, reject) => {
				die = reject;
			});
			death.catch(() => {});
			const terminate = (): void => {
				if (isAlive) running -= 1;
				isAlive = false;
				die(new Error('terminated'));
			};
			return {
				warmUp: async () => {},
				call: ((
					_name: unknown,
					_input: unknown,
					from: number,
					to: number,
					{ signal, onProgress = () => {} }: CallOptions = {},
				) => {
					signal?.addEventListener('abort', terminate);
					return Promise.race([death, Promise.resolve().then(() => work(from, to, onProgress, worker))]);
				}) as WorkerHandle['call'],
				terminate,
			};
		},
	};
}

// time is made up: a stall of the machine is no silence of a worker
beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
afterEach(() => void vi.useRealTimers());

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Lets made-up time go by, millisecond by millisecond, until a promise is settled. */
async function throughTime<T>(promise: Promise<T>): Promise<T> {
	let isSettled = false;
	const settle = (): void => {
		isSettled = true;
	};
	promise.then(settle, settle);
	while (!isSettled) await vi.advanceTimersByTimeAsync(1);
	return promise;
}

/** A job that is to fail nowhere, over so many indices. */
const quiet = (to: number): Job<'units'> => ({
	name: 'units',
	input: {} as never,
	to,
	onShard: () => {},
	onFailure: () => expect.unreachable(),
});

/** Runs 0 … 99 in shards of 10 and returns what the pool said. */
async function runHundred(host: WorkerHost, changes: Partial<Job<'units'>> = {}, workers = 2) {
	const done: [number, number][] = [];
	const failed: [number, number, string][] = [];
	const progress: number[] = [];
	const pool = createPool(host, workers);
	const job = pool.run<'units'>({
		name: 'units',
		input: {} as never,
		to: 100,
		shardSize: 10,
		onShard: (_output, from, to) => void done.push([from, to]),
		onFailure: (from, to, message) => void failed.push([from, to, message]),
		onProgress: (count) => void progress.push(count),
		...changes,
	});
	const complete = await throughTime(job);
	pool.close();
	return { complete, done: done.sort((a, b) => a[0] - b[0]), failed, progress, losses: pool.takeLosses() };
}

test('100 indices in shards of 10 are each done once, by two workers that are ended with the pool', async () => {
	const host = madeUpHost(() => pause(1));
	const { complete, done, failed, progress, losses } = await runHundred(host);
	expect(complete).toBe(true);
	expect(losses).toEqual([]);
	expect(done).toEqual(Array.from({ length: 10 }, (_, i) => [10 * i, 10 * i + 10]));
	expect(failed).toEqual([]);
	expect(progress.at(-1)).toBe(100);
	expect(host.spawned()).toBe(2);
	expect(host.running()).toBe(0);
});

test('a shard that throws is run twice, the second time on a fresh worker, and then reported', async () => {
	const tries: number[] = [];
	const host = madeUpHost((from, _to, _progress, worker) => {
		if (from !== 30) return;
		tries.push(worker);
		throw new Error('no');
	});
	const { complete, done, failed, losses } = await runHundred(host);
	expect(complete).toBe(true);
	expect(failed).toEqual([[30, 40, 'no']]);
	expect(losses).toEqual(['no', 'no']);
	expect(done).toHaveLength(9);
	expect(tries).toHaveLength(2);
	expect(tries[1]).not.toBe(tries[0]);
});

test('a worker that shows life more often than the limit may take many times as long', async () => {
	const host = madeUpHost(async (from, _to, onProgress) => {
		for (let i = 1; from === 0 && i <= 8; i += 1) {
			await pause(20);
			onProgress(i);
		}
	});
	const { failed } = await runHundred(host, { silenceLimit: 100 });
	expect(failed).toEqual([]);
});

test('a silent worker is ended after the limit, and the others go on meanwhile', async () => {
	const host = madeUpHost((from) => (from === 0 ? new Promise<void>(() => {}) : pause(1)));
	const { done, failed, losses } = await runHundred(host, { silenceLimit: 50 });
	expect(losses).toHaveLength(2);
	expect(failed).toEqual([[0, 10, 'the worker gave no sign of life for 0.05 s']]);
	expect(done).toHaveLength(9);
	expect(host.running()).toBe(0);
});

test('cancelled half-way, a job ends at once with what finished, though its workers are in the middle of shards', async () => {
	const cancel = new AbortController();
	const host = madeUpHost((from) => (from >= 50 ? new Promise<void>(() => {}) : pause(1)));
	setTimeout(() => cancel.abort(), 100);
	const { complete, done, failed } = await runHundred(host, { signal: cancel.signal });
	expect(complete).toBe(false);
	expect(done).toHaveLength(5);
	expect(failed).toEqual([]);
	expect(host.running()).toBe(0);
});

test('after a cancelled job the pool does the next one, on fresh workers', async () => {
	let isStuck = true;
	const host = madeUpHost(() => (isStuck ? new Promise<void>(() => {}) : pause(1)));
	const pool = createPool(host, 2);
	const cancel = new AbortController();
	const job = quiet(4);
	const first = pool.run({ ...job, signal: cancel.signal });
	await vi.advanceTimersByTimeAsync(10);
	cancel.abort();
	isStuck = false;
	const second = pool.run(job);
	expect(await throughTime(first)).toBe(false);
	expect(await throughTime(second)).toBe(true);
	pool.close();
	expect(host.running()).toBe(0);
});

test('progress comes at most ten times a second', async () => {
	const host = madeUpHost(async (_from, _to, onProgress) => {
		for (let i = 0; i < 10; i += 1) {
			await pause(2);
			onProgress(i);
		}
	});
	const began = performance.now();
	const { progress } = await runHundred(host);
	const seconds = (performance.now() - began) / 1000;
	// and once more at the end
	expect(progress.length).toBeLessThanOrEqual(10 * seconds + 2);
	expect(progress).toEqual([...progress].sort((a, b) => a - b));
});

test('a taker of shards that throws fails the job; its shard is not run again', async () => {
	const host = madeUpHost(() => {});
	const run = runHundred(host, {
		onShard: () => {
			throw new Error('cannot merge');
		},
	});
	await expect(run).rejects.toThrow('cannot merge');
});

test('workers warmed beforehand are the ones that work, and one that did not come up is replaced', async () => {
	const host = madeUpHost(() => {});
	const pool = createPool(host, 2);
	pool.warm();
	await vi.advanceTimersByTimeAsync(5);
	expect(host.spawned()).toBe(2);
	await throughTime(pool.run(quiet(4)));
	expect(host.spawned()).toBe(2);
	pool.close();

	let tries = 0;
	const failing: WorkerHost = {
		cores: 1,
		spawn() {
			tries += 1;
			const handle = host.spawn();
			return tries === 1 ? { ...handle, warmUp: () => Promise.reject(new Error('not yet')) } : handle;
		},
	};
	const second = createPool(failing);
	second.warm();
	await vi.advanceTimersByTimeAsync(5);
	await throughTime(second.run(quiet(1)));
	expect(tries).toBe(2);
	second.close();
});

test('an abort after the last shard does not make a finished job partial', async () => {
	const cancel = new AbortController();
	const { complete, done } = await runHundred(
		madeUpHost(() => {}),
		{ signal: cancel.signal, onShard: (_output, _from, to) => (to === 100 ? cancel.abort() : undefined) },
		1,
	);
	expect(done).toEqual([]); // this test takes the shards itself
	expect(complete).toBe(true);
});

test('a limit on silence of a year does not fire at once', async () => {
	const { failed } = await runHundred(
		madeUpHost(() => pause(1)),
		{ silenceLimit: 3.2e10 },
	);
	expect(failed).toEqual([]);
});

test('a gentle stop finishes the shards under way, begins no other and keeps its workers', async () => {
	const stop = new AbortController();
	const host = madeUpHost(async (from) => {
		await pause(10);
		if (from === 20) stop.abort();
	});
	const done: number[] = [];
	const { complete, failed } = await runHundred(host, {
		stop: stop.signal,
		onShard: (_output, from) => void done.push(from),
	});
	expect(complete).toBe(false);
	expect(failed).toEqual([]);
	expect(done).toContain(20);
	expect(done.length).toBeLessThanOrEqual(4);
	expect(host.spawned()).toBe(2);
});

test('a worker that is done with a shard has its next one before this thread takes the first in', async () => {
	const host = madeUpHost(() => {});
	const order: string[] = [];
	const watched: WorkerHost = {
		...host,
		spawn() {
			const worker = host.spawn();
			return {
				...worker,
				call: ((...given: Parameters<WorkerHandle['call']>) => {
					order.push(`begun ${given[2]}`);
					return worker.call(...given);
				}) as WorkerHandle['call'],
			};
		},
	};
	await runHundred(watched, { onShard: (_output, from) => void order.push(`taken ${from}`) }, 1);
	expect(order.slice(0, 5)).toEqual(['begun 0', 'begun 10', 'taken 0', 'begun 20', 'taken 10']);
	expect(order.at(-1)).toBe('taken 90');
});

test('a pool at rest has no worker, and starts fresh ones for the next job', async () => {
	const host = madeUpHost(() => {});
	const pool = createPool(host, 2);
	const run = () =>
		pool.run({
			name: 'units',
			input: {} as never,
			to: 10,
			shardSize: 5,
			onShard: () => {},
			onFailure: () => expect.unreachable(),
		});
	expect(await run()).toBe(true);
	pool.rest();
	expect(host.running()).toBe(0);
	expect(await run()).toBe(true);
	expect(host.spawned()).toBe(4);
	pool.close();
});
