import { transfer } from 'comlink';
import { warmUpKernel } from '../shared/study/warm-up-kernel.ts';

/** A task over a range of indices, as shard-api.ts lists them. */
type Task = (input: never, from: number, to: number, report: (done: number) => void) => object;

/** Tasks by name. */
export type TaskList = Readonly<Record<string, Task>>;

/** Progress reaches the host at most every so many milliseconds. */
const reportInterval = 50;

/**
 * What a worker of either host exposes: the tasks of `api` by name. Progress
 * goes to one listener for the worker's whole life, so that no call leaves a
 * callback behind.
 */
export function workerEndpoint(api: TaskList) {
	let listener: (from: number, done: number) => unknown = () => {};
	return {
		listen(callback: (from: number, done: number) => unknown): void {
			listener = callback;
		},
		/** Compiles the hot loop on a small run of its own; answering says that the worker works. */
		warmUp(): void {
			warmUpKernel();
		},
		/** Does one shard. Arrays in the answer are handed over, not copied. */
		call(name: string, input: unknown, from: number, to: number): object {
			const task = api[name];
			if (task === undefined) throw new Error(`no task is called ${name}`);
			let reported = performance.now();
			const output = task(input as never, from, to, (done) => {
				const now = performance.now();
				if (now - reported < reportInterval) return;
				reported = now;
				listener(from, done);
			});
			return transfer(output, buffersOf(output));
		},
	};
}

export type WorkerEndpoint = ReturnType<typeof workerEndpoint>;

/** The buffers of all typed arrays in a result, however deep. */
function buffersOf(value: unknown): ArrayBuffer[] {
	if (ArrayBuffer.isView(value)) return value.buffer instanceof ArrayBuffer ? [value.buffer] : [];
	if (typeof value !== 'object' || value === null) return [];
	return Object.values(value).flatMap(buffersOf);
}
