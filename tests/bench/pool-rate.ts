import type { StudyPlan } from '../../shared/study/plan.ts';
import type { ShardResult } from '../../shared/study/run-shard.ts';
import type { Pool } from '../../src/host/pool.ts';
import { shardPeriods } from './count-periods.ts';

/** Runs units of a study through a pool as the product does; PWM periods per second, both choices and warm-up counted. */
export async function poolRate(pool: Pool, plan: StudyPlan, units: number): Promise<number> {
	const shards: ShardResult[] = [];
	const started = performance.now();
	await pool.run({
		name: 'units',
		input: plan,
		to: units,
		onShard: (shard) => void shards.push(shard),
		onFailure(from, to, message) {
			throw new Error(`units ${from} to ${to} failed: ${message}`);
		},
	});
	const seconds = (performance.now() - started) / 1000;
	return shards.reduce((sum, shard) => sum + shardPeriods(plan, shard), 0) / seconds;
}

/** Works for at least `seconds`, so that all is compiled; returns how many units take about `wanted` seconds then. */
export async function warmUp(pool: Pool, plan: StudyPlan, seconds: number, wanted: number): Promise<number> {
	const began = performance.now();
	let units = 4;
	for (;;) {
		const started = performance.now();
		await poolRate(pool, plan, units);
		const took = (performance.now() - started) / 1000;
		const goal = Math.max(pool.workers, Math.round((units * wanted) / took));
		if (performance.now() - began >= seconds * 1000 && took > wanted / 4) return goal;
		units = Math.min(goal, units * 8);
	}
}
