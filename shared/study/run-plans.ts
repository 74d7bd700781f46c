import type { Scenario } from '../scenario/scenario.ts';
import { type DelaySums, delayPhases, nominalDelays } from './nominal-delay.ts';
import type { StudyPlan } from './plan.ts';
import { runShard, type ShardResult } from './run-shard.ts';

/**
 * Several studies of the same number of units as one row of work, study after
 * study: index = place of the study · units + unit. So a pool shares out all of
 * them at once, and no worker waits for the end of each.
 */
export interface ManyPlans {
	readonly plans: readonly StudyPlan[];
	readonly units: number;
}

/** What a range of that row did, study by study. */
export interface ManyShards {
	readonly parts: readonly { readonly plan: number; readonly shard: ShardResult }[];
}

export function runPlans(
	{ plans, units }: ManyPlans,
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): ManyShards {
	const parts = stretches(units, from, to).map(({ place, first, end, before }) => ({
		plan: place,
		shard: runShard(at(plans, place), first, end, { onProgress: (done) => onProgress(before + done) }),
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

/** A range of such a row, cut where one study ends and the next begins. `before`: how much of the range comes earlier. */
export function stretches(
	length: number,
	from: number,
	to: number,
): readonly { readonly place: number; readonly first: number; readonly end: number; readonly before: number }[] {
	const found = [];
	for (let index = from; index < to; ) {
		const place = Math.floor(index / length);
		const end = Math.min(to, (place + 1) * length);
		found.push({ place, first: index - place * length, end: end - place * length, before: index - from });
		index = end;
	}
	return found;
}

function at<T>(list: readonly T[], place: number): T {
	const found = list[place];
	if (found === undefined) throw new RangeError(`study ${place} of ${list.length}`);
	return found;
}
