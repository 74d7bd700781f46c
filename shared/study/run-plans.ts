import type { Scenario } from '../scenario/scenario.ts';
import { type DelaySums, delayPhases } from './compensation.ts';
import { nominalDelays } from './nominal-delay.ts';
import type { StudyPlan } from './plan.ts';
import { runShard, type ShardResult } from './run-shard.ts';
import { stretches } from './stretches.ts';

/**
 * So many units of each of several studies, from the unit `first` on, as one row
 * of work, study after study: index = place of the study · units + unit − first.
 * So a pool shares out all of them at once, and no worker waits for the end of each.
 */
export interface ManyPlans {
	readonly plans: readonly StudyPlan[];
	/** 0 if not given. */
	readonly first?: number;
	readonly units: number;
}

/** What a range of that row did, study by study. */
export interface ManyShards {
	readonly parts: readonly { readonly plan: number; readonly shard: ShardResult }[];
}

export function runPlans(
	{ plans, first: offset = 0, units }: ManyPlans,
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): ManyShards {
	const parts = stretches(units, from, to).map(({ place, first, end, before }) => ({
		plan: place,
		shard: runShard(at(plans, place), offset + first, offset + end, {
			onProgress: (done) => onProgress(before + done),
		}),
	}));
	return { parts };
}

/** The nominal delays of several scenarios as one row of work: index = place of the scenario · carrier phases + phase. */
export function delaysOfScenarios(
	scenarios: readonly Scenario[],
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): { readonly parts: readonly { readonly scenario: number; readonly sums: DelaySums }[] } {
	const parts = stretches(delayPhases, from, to).map(({ place, first, end, before }) => ({
		scenario: place,
		sums: nominalDelays(at(scenarios, place), first, end, (done) => onProgress(before + done)),
	}));
	return { parts };
}

function at<T>(list: readonly T[], place: number): T {
	const found = list[place];
	if (found === undefined) throw new RangeError(`study ${place} of ${list.length}`);
	return found;
}
