import { beforeAll, expect, test, vi } from 'vitest';
import type { StudyResult } from '../../shared/study/result.ts';
import type { ShardResult } from '../../shared/study/run-shard.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { runStudy, runStudyInPool } from '../../src/host/run-study.ts';
import type { StudyJournal } from '../../src/host/study-journal.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { buildWorker } from './build-worker.ts';

// every study starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const scenario = smallScenario();
let host: WorkerHost;
beforeAll(async () => {
	host = nodeHost(await buildWorker('workers/node-worker.ts'));
});

test('figures on the way are partial, grow, and lead to the final ones', async () => {
	const cancel = new AbortController();
	const partials: StudyResult[] = [];
	const request = { scenario, seed: 'partial', units: 100_000, signal: cancel.signal };
	const final = await runStudy(
		{
			...request,
			onPartial(result) {
				partials.push(result);
				if (partials.length === 3) cancel.abort();
			},
		},
		host,
	);
	const finished = [...partials, final].map(({ provenance }) => provenance.units.finished);
	expect(partials.length).toBeGreaterThanOrEqual(3);
	expect(finished[0]).toBeGreaterThan(0);
	expect(finished).toEqual([...finished].sort((a, b) => a - b));
	expect(final.provenance.partial).toBe(true);
	for (const { provenance } of partials) expect(provenance).toMatchObject({ partial: true, resultDigest: '' });
});

test('a study cancelled before it began resolves at once, with nothing finished and no made-up warning', async () => {
	const signal = AbortSignal.abort();
	const { provenance } = await runStudy({ scenario, seed: 'x', units: 10, signal }, host);
	expect(provenance).toMatchObject({ partial: true, units: { asked: 10, finished: 0, failed: 0 } });
	expect(provenance.warnings.join()).not.toContain('found no crossing');
});

test('one pool runs study after study; a cancelled one in between leaves no trace in the next', async () => {
	const pool = createPool(host, 2);
	const request = { scenario, seed: 'again', units: 12 };
	const first = await runStudyInPool(request, pool);
	const cancel = new AbortController();
	const cancelled = runStudyInPool({ ...request, units: 100_000, signal: cancel.signal }, pool);
	const second = runStudyInPool(request, pool);
	setTimeout(() => cancel.abort(), 200);
	expect((await cancelled).provenance.partial).toBe(true);
	expect(await second).toEqual(first);
	pool.close();
});

test('progress ends with every drive finished', async () => {
	const seen: number[] = [];
	await runStudy({ scenario, seed: 'p', units: 15, onProgress: ({ finished }) => void seen.push(finished) }, host);
	expect(seen.at(-1)).toBe(15);
});

test('until settled, batches are added until the figures stand still, and the figures are those of that many drives', async () => {
	// one start of six sectors: drives so coarse and so much spread that a few batches do
	const coarse = smallScenario({
		points: [{ name: 'fast', speed: 6000, torque: 0.05 }],
		sensing: { divider: { top: { mismatch: '15 %' } } },
		trial: { starts: 1, warmup: 6, settle: 0, measured: 6 },
	});
	const request = {
		scenario: coarse,
		seed: 'settled',
		units: 1000,
		until: { rule: 'settled', digits: 1, batch: 50 } as const,
	};
	const { stopping, provenance } = await runStudy(request, host);
	expect(stopping).toMatchObject({ rule: 'settled', reached: true, batch: 50, ceiling: 1000 });
	const { asked } = provenance.units;
	expect(asked % 50).toBe(0);
	expect(asked).toBeLessThan(1000);
	const fixed = await runStudy({ scenario: coarse, seed: 'settled', units: asked }, host);
	expect(fixed.provenance.resultDigest).toBe(provenance.resultDigest);
});

test('interrupted between looks, a study until decided is partial and does not claim to be decided', async () => {
	const cancel = new AbortController();
	const request = { scenario, seed: 'cut', units: 50_000, until: { rule: 'decided', choices: ['halfBus'] } as const };
	const hard = {
		...request,
		scenario: smallScenario({ requirement: { share: '99.9 %', angleLimit: '60°' }, supply: { voltage: 54 } }),
	};
	let seen = 0;
	const { provenance, stopping } = await runStudy(
		{
			...hard,
			signal: cancel.signal,
			onProgress({ finished }) {
				// units of cut shards are taken back in the end
				seen = Math.max(seen, finished);
				if (finished > 300) cancel.abort();
			},
		},
		host,
	);
	expect(seen).toBeGreaterThan(300);
	expect(provenance.partial).toBe(true);
	expect(stopping).toMatchObject({ rule: 'decided', reached: false });
});

test('what a journal holds is not simulated again, and the figures are those of a study without one', async () => {
	const kept: ShardResult[] = [];
	const journal: StudyJournal = {
		*shards(from, to) {
			for (const shard of kept) if (shard.from >= from && shard.to <= to) yield shard;
		},
		keep: (shard) => void kept.push(shard),
	};
	const request = { scenario, seed: 'kept', units: 60, shardSize: 7 };
	const whole = await runStudy(request, host);
	expect(await runStudy({ ...request, journal }, host)).toEqual(whole);
	const all = kept.splice(0);
	expect(all.reduce((sum, { from, to }) => sum + to - from, 0)).toBe(60);

	// a gap in the middle, one at the end, and one shard more than is asked for
	kept.push(...all.filter(({ from }) => from !== 14 && from < 49), { ...(all[0] as ShardResult), from: 56, to: 63 });
	const before = kept.length;
	const seen: number[] = [];
	const resumed = await runStudy({ ...request, journal, onProgress: ({ finished }) => void seen.push(finished) }, host);
	expect(resumed).toEqual(whole);
	expect(seen.at(-1)).toBe(60);
	expect(
		kept
			.slice(before)
			.map(({ from, to }) => [from, to])
			.sort((a, b) => Number(a[0]) - Number(b[0])),
	).toEqual([
		[14, 21],
		[49, 56],
		[56, 60],
	]);

	// cut short before anything: what is kept is not passed off as a result
	const cut = await runStudy({ ...request, journal, signal: AbortSignal.abort() }, host);
	expect(cut.provenance).toMatchObject({ partial: true, units: { finished: 0 } });
});
