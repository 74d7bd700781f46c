import { expect, test, vi } from 'vitest';
import type { ContestResult } from '../../shared/contest/contest-result.ts';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { Axis } from '../../shared/range/axis.ts';
import { runContestInPool } from '../../src/host/run-contest.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 60_000 });

const axis = (id: string, ...values: number[]): Axis => ({
	record: parameter(id) as NumberRecord,
	spacing: 'linear',
	values,
});
const speeds = axis('operation.speed', 1200, 7000);
const torques = axis('operation.torque', 0.02, 0.05);
const base = { seed: 'contest', point: 1, speed: speeds, torque: torques, units: 40 } as const;
const scenario = smallScenario();

test("the cell at a point's own speed and torque has that point's medians and passing drives in the study", async () => {
	const study = await runStudyInPool({ scenario, seed: 'contest', units: 24 }, inlinePool());
	const result = await runContestInPool({ ...base, scenario, units: 24 }, inlinePool());
	expect(result.cells.map(({ at }) => [at['operation.speed'], at['operation.torque']])).toEqual([
		[1200, 0.02],
		[7000, 0.02],
		[1200, 0.05],
		[7000, 0.05],
	]);
	const own = result.cells[3]?.figures;
	const { choices, paired } = study.points[1] as (typeof study.points)[number];
	expect(own?.units).toEqual({ finished: 24, failed: 0 });
	expect(own?.smaller).toEqual(paired.smaller);
	expect(own?.medianDifference).toBe(paired.medianDifference);
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		expect(own?.choices[choice].medianError).toBe(choices[choice].unitError.median);
		expect(own?.choices[choice].passed).toBe(choices[choice].passing.passed);
	}
	expect(result.provenance.compensation).toEqual(study.provenance.compensation);
});

test('cells that are decided take no more drives; the others go on to 40, and shards of 7 or 50 give the same map', async () => {
	const tilted = smallScenario({ sensing: { halfBus: { top: '47k' } } });
	const one = await runContestInPool({ ...base, scenario: tilted, shardSize: 7 }, inlinePool());
	const other = await runContestInPool({ ...base, scenario: tilted, shardSize: 50 }, inlinePool());
	expect(other).toEqual(one);
	const taken = one.cells.map(({ figures }) => figures?.units.finished);
	expect(new Set(taken).size).toBeGreaterThan(1);
	for (const { figures } of one.cells) {
		if (figures?.better === 'not shown') expect(figures.units.finished).toBe(40);
		else expect([24, 36, 40]).toContain(figures?.units.finished);
	}
	const sum = taken.reduce<number>((all, units) => all + (units ?? 0), 0);
	expect(one.provenance.units).toEqual({ asked: sum, finished: sum, failed: 0 });
});

test('a torque beyond the limits of its parameter leaves its cells out and says why; the rest is judged', async () => {
	const result = await runContestInPool(
		{ ...base, scenario, units: 24, torque: axis('operation.torque', 0.05, 1e6) },
		inlinePool(),
	);
	expect(result.cells.map(({ leftOut }) => leftOut !== null)).toEqual([false, false, true, true]);
	expect(result.cells[2]?.leftOut).toMatch(/load torque must be/);
	expect(result.sentence).toMatch(
		/^At none of 2 pairs of speed and torque is either choice shown to be better .* 2 further pairs could not be simulated\.$/,
	);
});

test('drives of a shard that fails twice count as failed in the cells they belong to', async () => {
	const pool = inlinePool({
		before: (name, from) => {
			if (name === 'unitsOfVariants' && from === 0) throw new Error('broken');
		},
	});
	const result = await runContestInPool({ ...base, scenario, units: 24, shardSize: 4 }, pool);
	expect(result.provenance.units).toEqual({ asked: 96, finished: 92, failed: 4 });
	expect(result.provenance.failures).toEqual(Array.from({ length: 4 }, () => ({ unit: 0, message: 'broken' })));
});

test('cut short it is marked partial and shows what finished; before that it fills in', async () => {
	const end = new AbortController();
	const seen: ContestResult[] = [];
	let shards = 0;
	const pool = inlinePool({
		before: (name) => {
			if (name !== 'unitsOfVariants') return;
			shards += 1;
			if (shards === 6) end.abort();
		},
	});
	const now = vi.spyOn(performance, 'now').mockImplementation(() => shards * 1000);
	const result = await runContestInPool(
		{ ...base, scenario, shardSize: 4, signal: end.signal, onPartial: (partial) => void seen.push(partial) },
		pool,
	);
	now.mockRestore();
	expect(result.provenance).toMatchObject({ partial: true, units: { asked: 96, finished: 24, failed: 0 } });
	expect(seen.length).toBeGreaterThan(2);
	const finished = seen.map(({ provenance }) => provenance.units.finished);
	expect(finished).toEqual([...finished].sort((a, b) => a - b));
	expect(finished[0]).toBe(4);
	expect(seen[0]?.provenance.resultDigest).toBe('');
	expect(seen[0]?.sentence).toMatch(/^So far none of 4 pairs .* 4 are still being worked on/);
	expect(result.sentence).toMatch(/^The run was stopped with \w+ of 4 pairs /);
});
