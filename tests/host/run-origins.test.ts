import { beforeAll, expect, test, vi } from 'vitest';
import { nodeHost } from '../../src/host/node-host.ts';
import { type BudgetsRequest, budgetsDrives, runBudgets } from '../../src/host/run-budgets.ts';
import { type OriginsRequest, originsDrives, runOrigins } from '../../src/host/run-origins.ts';
import { oneSpeed } from '../origins/one-speed.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { buildWorker } from './build-worker.ts';

// every run starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const origins: OriginsRequest = { scenario: smallScenario(), point: 1, seed: 'shared', rows: 21, units: 20 };
const budgets: BudgetsRequest = { scenario: smallScenario(), point: 1, seed: 'shared', units: 30 };
let worker: URL;
beforeAll(async () => {
	worker = await buildWorker('workers/node-worker.ts');
});

test('origins are the same to the last bit with 1 worker, 2 and 3, in shards of 1, 5 and a chosen number of drives', async () => {
	const [one, ...others] = await Promise.all(
		(
			[
				[1, 5],
				[2, 1],
				[3, undefined],
			] as const
		).map(([workers, shardSize]) =>
			runOrigins({ ...origins, workers, ...(shardSize && { shardSize }) }, nodeHost(worker)),
		),
	);
	expect(one?.provenance).toMatchObject({ partial: false, units: { asked: originsDrives(origins) - 20, failed: 0 } });
	expect(one?.provenance.resultDigest).toMatch(/^[0-9a-f]{64}$/);
	expect(one?.point).toBe('faster');
	expect(one?.correlations?.drives.virtualNeutral).toBe(20);
	for (const other of others) expect(other).toEqual(one);
});

test('budgets are the same to the last bit with 1 worker and 3, in shards of 7 and 1 drives', async () => {
	const [one, other] = await Promise.all(
		(
			[
				[1, 7],
				[3, 1],
			] as const
		).map(([workers, shardSize]) => runBudgets({ ...budgets, workers, shardSize }, nodeHost(worker))),
	);
	expect(one?.provenance).toMatchObject({
		partial: false,
		units: { asked: budgetsDrives(budgets), finished: budgetsDrives(budgets), failed: 0 },
	});
	expect(one?.choices.virtualNeutral.kinds.every((kind) => kind !== null)).toBe(true);
	expect(other).toEqual(one);
});

test('cut short, both give what finished and say partial', async () => {
	const interruption = new AbortController();
	const result = await runOrigins(
		{
			...origins,
			rows: 5000,
			signal: interruption.signal,
			onProgress: ({ finished }) => finished > 500 && interruption.abort(),
		},
		nodeHost(worker),
	);
	const { partial, units } = result.provenance;
	expect(partial).toBe(true);
	expect(units.finished).toBeGreaterThan(0);
	expect(units.finished).toBeLessThan(units.asked);
	expect(result.choices.virtualNeutral.rows).toBeGreaterThan(0);
	expect(result.correlations).toBeNull();
	const aborted = await runBudgets({ ...budgets, signal: AbortSignal.abort() }, nodeHost(worker));
	expect(aborted.provenance).toMatchObject({ partial: true, units: { finished: 0 } });
	expect(aborted.sentence).toContain('cut short before a budget could be made');
});

test('origins end at the look from which on no share would be told otherwise, with the digits of so many rows', async () => {
	// nothing but the moment of the start varies: all of the spread is its
	const alone = { ...origins, scenario: oneSpeed({}), point: 0, units: 0 };
	const [result, short] = await Promise.all(
		[230, 100].map((rows) => runOrigins({ ...alone, rows, shardSize: 30 }, nodeHost(worker))),
	);
	if (!result || !short) throw new Error('no result');
	expect(result.rows).toBe(100);
	expect(result).toEqual(short);
	// 100 rows of several groups do not tell whole per cents
	const several = await runOrigins({ ...origins, rows: 101, units: 0 }, nodeHost(worker));
	expect(several.rows).toBe(101);
});

test('with no worker to be had every drive counts as failed, with the reason, and nothing is shown', async () => {
	const host = nodeHost(new URL('file:///nowhere/worker.js'));
	const { provenance, sentence } = await runOrigins({ ...origins, workers: 1 }, host);
	expect(provenance.units).toEqual({
		asked: originsDrives(origins) - 20,
		finished: 0,
		failed: originsDrives(origins) - 20,
	});
	expect(provenance.failures[0]?.message).toContain('the nominal drive: ');
	expect(sentence).toContain('nothing is shown');
});
