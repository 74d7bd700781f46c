import type { Scenario } from '../../shared/scenario/scenario.ts';
import { failUnits, mergeShard, type StudyColumns, studyFor, studyUpTo } from '../../shared/study/merge.ts';
import { variantStretches } from '../../shared/variants/run-variants.ts';
import { type Variant, type VariantList, variantPlan } from '../../shared/variants/variant.ts';
import { type EarlyEnds, stageEnds } from './early-ends.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

/** How far a command has come with the drives it knows to be needed so far; `asked` rises when a search goes on. */
export interface WorkProgress {
	readonly asked: number;
	readonly finished: number;
	readonly failed: number;
}

export interface VariantWork {
	readonly list: VariantList;
	/** Of each variant. */
	readonly units: number;
	/** Lets variants end earlier; without it none does. */
	readonly early?: EarlyEnds;
	readonly signal?: AbortSignal | undefined;
	readonly onProgress?: ((progress: WorkProgress) => void) | undefined;
	readonly shardSize?: number | undefined;
}

export interface VariantOutcome {
	/** Columns of each variant, in the list's order, of the units it was run with; histograms are not kept. */
	readonly studies: readonly StudyColumns[];
	/** False where `signal` cut it short. */
	readonly isComplete: boolean;
}

/** Runs every variant on the same drives as one job, so that no worker waits between them; where variants may end early, as one job from each look to the next. */
export async function runVariantsInPool(work: VariantWork, pool: Pool): Promise<VariantOutcome> {
	const { list, units, early, signal, onProgress = () => {}, shardSize } = work;
	const scenarios = list.variants.map((_, place) => variantPlan(list, place).scenario);
	const studies = scenarios.map((scenario) => columnsWithoutHistograms(scenario, units));
	let asked = scenarios.length * units;
	let failed = 0;
	let done = 0;
	let goingOn = [...scenarios.keys()];
	let first = 0;
	let isComplete = true;
	for (const end of stageEnds(units, early?.looks)) {
		if (goingOn.length === 0) break;
		const row = goingOn;
		isComplete = await pool.run({
			name: 'unitsOfVariants',
			input: { ...list, variants: row.map((place) => list.variants[place] as Variant) },
			from: first * row.length,
			to: end * row.length,
			signal,
			silenceLimit: Math.max(...scenarios.map(silenceLimitOf)),
			shardSize,
			onShard({ parts }) {
				for (const { variant, shard } of parts) {
					mergeShard(studies[row[variant] as number] as StudyColumns, shard);
					failed += shard.failures.length;
				}
			},
			onFailure(from, to, message) {
				for (const { variant, first: begin, end: stop } of variantStretches(row.length, from, to)) {
					failUnits(studies[row[variant] as number] as StudyColumns, begin, stop, message);
				}
				failed += to - from;
			},
			onProgress: (count) => onProgress({ asked, finished: Math.max(0, done + count - failed), failed }),
		});
		if (!isComplete || end === units) break;
		done += (end - first) * row.length;
		first = end;
		const soFar = new Map(row.map((place) => [place, studyUpTo(studies[place] as StudyColumns, end)]));
		for (const place of early?.ended(soFar) ?? []) {
			studies[place] = soFar.get(place) as StudyColumns;
			goingOn = goingOn.filter((other) => other !== place);
			asked -= units - end;
		}
		onProgress({ asked, finished: done - failed, failed });
	}
	return { studies, isComplete };
}

/** Columns of units that are still to be run. */
export const columnsWithoutHistograms = (scenario: Scenario, units: number): StudyColumns => ({
	...studyFor(scenario, units),
	histograms: new Float64Array(0),
});
