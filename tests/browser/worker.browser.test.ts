import { expect, inject, test } from 'vitest';
import { browserHost } from '../../src/host/browser-host.ts';
import { runStudy } from '../../src/host/run-study.ts';
import { browserStudy } from './browser-study.ts';

for (const workers of [1, 2, 8]) {
	for (const shardSize of [1, 7, 64]) {
		test(`in Chromium, ${workers} workers and ${shardSize} drives a shard give Node's result to the last bit`, async () => {
			const { provenance } = await runStudy({ ...browserStudy, workers, shardSize }, browserHost());
			expect(provenance.units).toEqual({ asked: 40, finished: 40, failed: 0 });
			expect(provenance.resultDigest).toBe(inject('nodeDigest'));
		});
	}
}

test('a worker that breaks down outside any call, twice, costs its shard and is told', async () => {
	const host = browserHost(() => new Worker(new URL('./killed-worker.ts', import.meta.url), { type: 'module' }));
	const { provenance } = await runStudy({ ...browserStudy, workers: 2, shardSize: 8 }, host);
	expect(provenance.units).toEqual({ asked: 40, finished: 32, failed: 8 });
	expect(provenance.failures[0]?.message).toContain('out of everything');
});

test('a worker that cannot be loaded fails all drives, told in words', async () => {
	const host = browserHost(() => new Worker('/there-is-no-such-worker.js', { type: 'module' }));
	const { provenance } = await runStudy({ ...browserStudy, workers: 2 }, host);
	expect(provenance.units.failed).toBe(40);
	expect(provenance.failures[0]?.message).toContain('could not be loaded');
});

test('cancelled, a study of 100 000 drives resolves with what finished, marked partial', async () => {
	const cancel = new AbortController();
	const running = runStudy({ ...browserStudy, units: 100_000, workers: 2, signal: cancel.signal }, browserHost());
	await new Promise((resolve) => setTimeout(resolve, 1500));
	cancel.abort();
	const { provenance } = await running;
	expect(provenance.partial).toBe(true);
	expect(provenance.units.finished).toBeLessThan(100_000);
});
