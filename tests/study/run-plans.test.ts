import { expect, test } from 'vitest';
import { nominalDelays } from '../../shared/study/nominal-delay.ts';
import { delaysOfScenarios, runPlans } from '../../shared/study/run-plans.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { stretches } from '../../shared/study/stretches.ts';
import { smallScenario } from './small-scenario.ts';

const scenario = smallScenario();
const other = smallScenario({ noise: { sigma: '20 mV' } });
const plans = [scenario, other].map((one) => ({
	scenario: one,
	seed: 'row',
	compensation: { halfBus: 60e-6, virtualNeutral: 60e-6 },
}));

test('a range over three studies of 10 is cut where one ends: 8 to 23 are 8 and 9, all of the second, 0 to 2', () => {
	expect(stretches(10, 8, 23)).toEqual([
		{ place: 0, first: 8, end: 10, before: 0 },
		{ place: 1, first: 0, end: 10, before: 2 },
		{ place: 2, first: 0, end: 3, before: 12 },
	]);
	expect(stretches(10, 4, 4)).toEqual([]);
});

test('indices 2 to 4 of two studies of three drives are drive 2 of the first and drives 0 and 1 of the second', () => {
	const seen: number[] = [];
	const { parts } = runPlans({ plans, units: 3 }, 2, 5, (done) => seen.push(done));
	expect(parts).toEqual([
		{ plan: 0, shard: runShard(plans[0] as (typeof plans)[0], 2, 3) },
		{ plan: 1, shard: runShard(plans[1] as (typeof plans)[0], 0, 2) },
	]);
	expect(seen.at(-1)).toBe(3);
	expect(seen).toEqual([...seen].sort((a, b) => a - b));
	expect(() => runPlans({ plans, units: 3 }, 6, 7)).toThrow('study 2 of 2');
});

test('carrier phases 15 to 17 of two scenarios are the last of the first and the first two of the second', () => {
	expect(delaysOfScenarios([scenario, other], 15, 18).parts).toEqual([
		{ scenario: 0, sums: nominalDelays(scenario, 15, 16) },
		{ scenario: 1, sums: nominalDelays(other, 0, 2) },
	]);
});
