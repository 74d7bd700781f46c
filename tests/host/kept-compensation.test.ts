import { expect, test } from 'vitest';
import { delaysOfScenarios } from '../../shared/study/run-plans.ts';
import { keptCompensation } from '../../src/host/kept-compensation.ts';
import type { Job, Pool } from '../../src/host/pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

/** A pool that does the one task asked here in this thread, and counts its jobs. */
function countingPool(): Pool & { readonly jobs: () => number } {
	let jobs = 0;
	return {
		workers: 1,
		takeLosses: () => [],
		jobs: () => jobs,
		run: async (job) => {
			jobs += 1;
			const { input, to, onShard } = job as unknown as Job<'nominalDelaysOfScenarios'>;
			onShard(delaysOfScenarios(input, 0, to), 0, to);
			return true;
		},
		warm: () => {},
		rest: () => {},
		close: () => {},
	};
}

const never = { signal: new AbortController().signal, stop: new AbortController().signal };

test('an edited tolerance needs no second nominal drive, an edited value does', async () => {
	const pool = countingPool();
	const compensationOf = keptCompensation(pool);
	const first = await compensationOf(smallScenario(), never);
	const looser = smallScenario({ sensing: { divider: { top: { value: '22k', mismatch: '5 %' } } } });
	expect(await compensationOf(looser, never)).toBe(first);
	expect(pool.jobs()).toBe(1);
	const other = await compensationOf(smallScenario({ sensing: { divider: { capacitor: '1n' } } }), never);
	expect(pool.jobs()).toBe(2);
	expect(other.compensation.halfBus).toBeGreaterThan(first.compensation.halfBus);
});

test('what was cut short is not remembered', async () => {
	const pool = countingPool();
	const compensationOf = keptCompensation(pool);
	const stopped = new AbortController();
	stopped.abort();
	await compensationOf(smallScenario(), { ...never, stop: stopped.signal });
	await compensationOf(smallScenario(), never);
	expect(pool.jobs()).toBe(2);
});
