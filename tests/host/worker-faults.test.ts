import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { figureDifferences } from '../../shared/results/figure-differences.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { runStudy } from '../../src/host/run-study.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { buildWorker } from './build-worker.ts';
import type { Fault } from './faulty-worker.ts';

// every study starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let faulty: URL;
let folder: string;
beforeAll(async () => {
	faulty = await buildWorker('tests/host/faulty-worker.ts');
	folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const scenario = smallScenario();
const units = 24;
const shardSize = 6;
const run = (seed: string, silenceLimit = 10_000) =>
	runStudy({ scenario, seed, units, workers: 2, shardSize, silenceLimit }, nodeHost(faulty));

const reasons = { throws: 'the kernel broke down', dies: 'exit code 3', hangs: 'no sign of life for 5 s' };

for (const kind of ['throws', 'dies', 'hangs'] as const) {
	// a worker that hangs is found by its silence; 5 s are long even against the start of a thread on a busy machine
	const limit = kind === 'hangs' ? 5000 : 10_000;

	test(`a worker that ${kind} once in the middle of a shard has it run again: all 24 drives finish, as if nothing had been, and that is told`, async () => {
		const fault: Fault = { kind, unit: 8, marker: join(folder, kind) };
		const seed = JSON.stringify(fault);
		const struck = await run(seed, limit);
		expect(existsSync(join(folder, kind))).toBe(true);
		const untroubled = await run(seed, limit);
		expect(struck.provenance.units).toEqual({ asked: 24, finished: 24, failed: 0 });
		expect(untroubled.provenance.lostWorkers).toBeUndefined();
		const lostWorkers = expect.stringMatching(
			new RegExp(`^A worker was lost \\(.*${reasons[kind]}.*\\); .* run again`),
		);
		expect(struck).toEqual({ ...untroubled, provenance: { ...untroubled.provenance, lostWorkers } });
		// who holds the two against each other finds no figure that differs
		expect(figureDifferences(struck, untroubled).differences).toEqual([]);
	});

	test(`a worker that ${kind} every time costs its 6 drives, which are counted as failed with a reason, and no other`, async () => {
		const fault: Fault = { kind, unit: 8 };
		const { provenance, points } = await run(JSON.stringify(fault), limit);
		expect(provenance.units).toEqual({ asked: 24, finished: 18, failed: 6 });
		expect(provenance.failures.map(({ unit }) => unit)).toEqual([6, 7, 8, 9, 10, 11]);
		for (const { message } of provenance.failures) expect(message).toContain(reasons[kind]);
		expect(provenance.lostWorkers).toMatch(/^2 workers were lost /);
		expect(provenance.partial).toBe(false);
		expect(points[0]?.choices.halfBus.units).toBe(18);
	});
}

test('workers that cannot be loaded fail all drives at once, with the reason', async () => {
	const unloadable = await buildWorker('tests/host/unloadable-worker.ts');
	const { provenance } = await runStudy({ scenario, seed: 'x', units, workers: 2 }, nodeHost(unloadable));
	expect(provenance.units).toEqual({ asked: 24, finished: 0, failed: 24 });
	expect(provenance.failures[0]?.message).toContain('this worker cannot be loaded');
});

test('where the compensation is stated, each of those drives is counted once, though two workers failed at a time', async () => {
	const nowhere = nodeHost(new URL('nowhere.js', faulty));
	const stated = smallScenario({ detection: { compensation: '75 µs' } });
	const { provenance } = await runStudy({ scenario: stated, seed: 'x', units, workers: 2, shardSize }, nowhere);
	expect(provenance.failures.map(({ unit }) => unit)).toEqual(Array.from({ length: 24 }, (_, unit) => unit));
});

test('a worker file that does not exist fails all drives at once', async () => {
	const nowhere = new URL('nowhere.js', faulty);
	const { provenance } = await runStudy({ scenario, seed: 'x', units, workers: 2 }, nodeHost(nowhere));
	expect(provenance.units.failed).toBe(24);
});
