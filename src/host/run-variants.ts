import type { Scenario } from '../../shared/scenario/scenario.ts';
import { failUnits, mergeShard, type StudyColumns, studyFor } from '../../shared/study/merge.ts';
import { variantStretches } from '../../shared/variants/run-variants.ts';
import { type VariantList, variantPlan } from '../../shared/variants/variant.ts';
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
	readonly signal?: AbortSignal | undefined;
	readonly onProgress?: ((progress: WorkProgress) => void) | undefined;
	readonly shardSize?: number | undefined;
}

export interface VariantOutcome {
	/** Columns of each variant, in the list's order; histograms are not kept. */
	readonly studies: readonly StudyColumns[];
	/** False where `signal` cut it short. */
	readonly isComplete: boolean;
}

/** Runs every variant on the same drives as one job, so that no worker waits between them. */
export async function runVariantsInPool(work: VariantWork, pool: Pool): Promise<VariantOutcome> {
	const { list, units, signal, onProgress = () => {}, shardSize } = work;
	const scenarios = list.variants.map((_, place) => variantPlan(list, place).scenario);
	const studies = scenarios.map((scenario) => columnsWithoutHistograms(scenario, units));
	const asked = scenarios.length * units;
	let failed = 0;
	const isComplete = await pool.run({
		name: 'unitsOfVariants',
		input: list,
		to: asked,
		signal,
		silenceLimit: Math.max(...scenarios.map(silenceLimitOf)),
		shardSize,
		onShard({ parts }) {
			for (const { variant, shard } of parts) {
				mergeShard(studies[variant] as StudyColumns, shard);
				failed += shard.failures.length;
			}
		},
		onFailure(from, to, message) {
			for (const { variant, first, end } of variantStretches(scenarios.length, from, to)) {
				failUnits(studies[variant] as StudyColumns, first, end, message);
			}
			failed += to - from;
		},
		onProgress: (done) => onProgress({ asked, finished: Math.max(0, done - failed), failed }),
	});
	return { studies, isComplete };
}

/** Columns of units that are still to be run. */
export const columnsWithoutHistograms = (scenario: Scenario, units: number): StudyColumns => ({
	...studyFor(scenario, units),
	histograms: new Float64Array(0),
});
