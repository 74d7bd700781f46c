import { expect, test } from 'vitest';
import { workerHandle } from '../../src/host/worker-handle.ts';

/** A far side whose answers the test gives. */
function farSide() {
	let die: (error: Error) => void = () => {};
	let tell: (from: number, done: number) => void = () => {};
	let ended = 0;
	const answers: ((value: unknown) => void)[] = [];
	const handle = workerHandle({
		async listen(callback) {
			tell = callback;
		},
		warmUp: () => new Promise((resolve) => answers.push(() => resolve())),
		call: () => new Promise((resolve) => answers.push(resolve)),
		onDeath(callback) {
			die = callback;
		},
		end() {
			ended += 1;
		},
	});
	return {
		handle,
		die: (error: Error) => die(error),
		tell: (from: number, done: number) => tell(from, done),
		answer: (value: unknown) => answers.shift()?.(value),
		ended: () => ended,
	};
}
const call = (side: ReturnType<typeof farSide>, options = {}) => side.handle.call('units', {} as never, 5, 9, options);

test('a call in flight rejects when its worker dies, and so does every later one', async () => {
	const side = farSide();
	const inFlight = call(side);
	side.die(new Error('out of memory'));
	await expect(inFlight).rejects.toThrow('out of memory');
	await expect(call(side)).rejects.toThrow('out of memory');
	await expect(side.handle.warmUp()).rejects.toThrow('out of memory');
	expect(side.ended()).toBe(1);
});

test('a call in flight rejects when its worker is terminated, which ends the thread once', async () => {
	const side = farSide();
	const inFlight = call(side);
	side.handle.terminate();
	side.handle.terminate();
	await expect(inFlight).rejects.toThrow('terminated');
	expect(side.ended()).toBe(1);
});

test('an abort ends the worker in the middle of its work; one that came before lets nothing start', async () => {
	const [busy, idle] = [farSide(), farSide()];
	const cancel = new AbortController();
	const inFlight = call(busy, { signal: cancel.signal });
	cancel.abort();
	await expect(inFlight).rejects.toThrow('cancelled');
	expect(busy.ended()).toBe(1);
	await expect(call(idle, { signal: cancel.signal })).rejects.toThrow('cancelled');
	expect(idle.ended()).toBe(1);
});

test('an abort after the answer leaves the worker alone', async () => {
	const side = farSide();
	const cancel = new AbortController();
	const inFlight = call(side, { signal: cancel.signal });
	side.answer('done');
	expect(await inFlight).toBe('done');
	cancel.abort();
	expect(side.ended()).toBe(0);
});

test('progress reaches the call it belongs to: late news of an earlier shard is dropped', async () => {
	const side = farSide();
	const seen: number[] = [];
	const inFlight = call(side, { onProgress: (done: number) => seen.push(done) });
	side.tell(0, 3); // the shard before began at 0
	side.tell(5, 2);
	side.answer('done');
	await inFlight;
	side.tell(5, 4);
	expect(seen).toEqual([2]);
});

test('warm-up is asked of the worker once', async () => {
	const side = farSide();
	const both = Promise.all([side.handle.warmUp(), side.handle.warmUp()]);
	await new Promise((resolve) => setTimeout(resolve));
	side.answer(undefined);
	await both;
	await side.handle.warmUp();
});
