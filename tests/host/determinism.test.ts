import { beforeAll, expect, test, vi } from 'vitest';
import { emptyStudy, mergeShard } from '../../shared/study/merge.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { runStudy } from '../../src/host/run-study.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { buildWorker } from './build-worker.ts';

// every study starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const scenario = smallScenario();
const seed = 'determinism';
const units = 70;
let worker: URL;
let expected: string;

beforeAll(async () => {
	worker = await buildWorker('workers/node-worker.ts');
	const study = emptyStudy(units, scenario.points.length);
	mergeShard(study, runShard({ scenario, seed, compensation: nominalCompensation(scenario).compensation }, 0, units));
	expected = await resultDigest(study);
});

for (const workers of [1, 2, 8]) {
	for (const shardSize of [1, 7, 64, undefined]) {
		test(`${workers} workers, ${shardSize ?? 'chosen'} drives a shard: bit for bit the result without any worker`, async () => {
			const { provenance } = await runStudy({ scenario, seed, units, workers, shardSize }, nodeHost(worker));
			expect(provenance.units.finished).toBe(units);
			expect(provenance.resultDigest).toBe(expected);
		});
	}
}
