import type { Scenario } from '../../shared/scenario/scenario.ts';
import { failUnits, mergeShard, studyFor } from '../../shared/study/merge.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { stretches } from '../../shared/study/stretches.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

export interface ComparisonRequest {
	/** Variants of one scenario, with the same points. */
	readonly scenarios: readonly Scenario[];
	/** Index of the one operating point looked at. */
	readonly point: number;
	/** Not empty; the same for all, so that unit i is the same draw in each. */
	readonly seed: string;
	/** Of each scenario. */
	readonly units: number;
	/** Ends it at once, at the cost of the workers. */
	readonly signal?: AbortSignal | undefined;
	/** Ends it gently, workers kept. */
	readonly stop?: AbortSignal | undefined;
	/** Units so far, of all scenarios. */
	readonly onProgress?: (done: number) => void;
}

/** Milliseconds: short, so that a stop frees the workers at once. */
const shardTime = 40;

/**
 * The same units of several scenarios at one operating point, as one job; each
 * scenario has the delay compensation found for it. Null where it was cut short
 * or a scenario's nominal drive cannot be simulated.
 */
export async function runComparisonInPool(
	request: ComparisonRequest,
	pool: Pool,
): Promise<readonly UnitRecord[] | null> {
	const { scenarios, point, seed, units, signal, stop, onProgress } = request;
	const silenceLimit = Math.max(...scenarios.map(silenceLimitOf));
	const records: UnitRecord[] = [];
	for (const scenario of scenarios) {
		const found: FoundCompensation = await findCompensation(scenario, pool, silenceLimit, signal, stop);
		if (found.failure !== undefined || signal?.aborted || stop?.aborted) return null;
		const plan = pointPlan(scenario, point, { seed, compensation: found.compensation });
		records.push({ plan, study: studyFor(plan.scenario, units) });
	}
	const isComplete = await pool.run({
		name: 'unitsOfPlans',
		input: { plans: records.map(({ plan }) => plan), units },
		to: records.length * units,
		signal,
		stop,
		silenceLimit,
		shardTime,
		onShard({ parts }) {
			for (const { plan, shard } of parts) mergeShard((records[plan] as UnitRecord).study, shard);
		},
		onFailure(from, to, message) {
			for (const { place, first, end } of stretches(units, from, to)) {
				failUnits((records[place] as UnitRecord).study, first, end, message);
			}
		},
		...(onProgress && { onProgress }),
	});
	return isComplete ? records : null;
}
