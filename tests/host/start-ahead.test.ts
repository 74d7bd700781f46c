import type { Worker } from 'node:worker_threads';
import { expect, onTestFinished, test, vi } from 'vitest';
import { nodeHost } from '../../src/host/node-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { buildWorker } from './build-worker.ts';

vi.setConfig({ testTimeout: 60_000 });

test('of three workers started ahead a pool of two takes two and starts none, and the third is ended', async () => {
	const started: Worker[] = [];
	const meet = (worker: Worker): void => void started.push(worker);
	process.on('worker', meet);
	onTestFinished(() => void process.off('worker', meet));
	const host = nodeHost(await buildWorker('workers/node-worker.ts'));
	host.startAhead(3);
	// Node tells of a new worker a tick later
	await new Promise(setImmediate);
	expect(started).toHaveLength(3);
	const ends = started.map((worker) => new Promise((resolve) => worker.once('exit', resolve)));

	const pool = createPool(host, 2);
	const done: number[] = [];
	await pool.run({
		name: 'nominalDelaysOfScenarios',
		input: [smallScenario()],
		to: 4,
		shardSize: 2,
		onShard: (_output, from) => void done.push(from),
		onFailure: (_from, _to, message) => expect.unreachable(message),
	});
	expect(done.sort()).toEqual([0, 2]);
	expect(started).toHaveLength(3);
	pool.close();
	host.endUnused();
	await Promise.all(ends);
});
