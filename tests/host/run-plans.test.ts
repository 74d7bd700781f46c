import { expect, test } from 'vitest';
import type { Pool } from '../../src/host/pool.ts';
import { runPlansInPool } from '../../src/host/run-plans.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

/** Indices of the first job that is begun for so many runs of so many units, which may end at 100 of them. */
async function firstJob(runs: number, units: number): Promise<number> {
	const scenario = smallScenario({ detection: { compensation: '50 µs' } });
	let begun = 0;
	const pool: Pool = {
		...inlinePool(),
		run(job) {
			begun = job.to;
			throw new Error('seen');
		},
	};
	const work = runPlansInPool(
		{
			runs: Array.from({ length: runs }, () => ({ scenario, seed: 'plans' })),
			units,
			early: { looks: [100], ended: () => [] },
			summarise: async () => null,
		},
		pool,
	);
	await expect(work).rejects.toThrow('seen');
	return begun;
}

test('runs are looked at together as far as their columns take no more than 256 MB; else each is done before the next', async () => {
	// two points, two choices: some 580 bytes a unit
	expect(await firstJob(4, 100_000)).toBe(4 * 100);
	expect(await firstJob(4, 120_000)).toBe(4 * 120_000);
});
