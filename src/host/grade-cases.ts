import { caseFigures } from '../../shared/grades/case-figures.ts';
import type { CaseFigures } from '../../shared/grades/result.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { looksOfRuns } from '../../shared/study/looks.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import type { EarlyEnds } from './early-ends.ts';
import type { Pool } from './pool.ts';
import { runPlansInPool } from './run-plans.ts';

export interface CaseRun {
	readonly scenario: Scenario;
	readonly seed: string;
}

export interface CaseRuns {
	/** In the order of the runs. */
	readonly figures: readonly CaseFigures[];
	readonly warnings: readonly string[];
	readonly isComplete: boolean;
}

/** Drives over all runs so far asked for; `asked` grows when further ones are, and falls where runs end early. */
export interface CaseProgress {
	readonly asked: number;
	readonly finished: number;
	readonly failed: number;
}

interface CaseOptions {
	/** Of each run. */
	readonly units: number;
	readonly signal?: AbortSignal | undefined;
	readonly onProgress?: ((progress: CaseProgress) => void) | undefined;
	readonly shardSize?: number | undefined;
}

/** @param ended the places of runs that may end early, after each of a comparison's looks (early-ends.ts) */
export type CaseRunner = (runs: readonly CaseRun[], ended: EarlyEnds['ended']) => Promise<CaseRuns>;

/** Runs lists of cases, one list after another, with progress over all of them. */
export function caseRunner({ units, signal, onProgress = () => {}, shardSize }: CaseOptions, pool: Pool): CaseRunner {
	let before: CaseProgress = { asked: 0, finished: 0, failed: 0 };
	return async (runs, ended) => {
		let latest = before;
		const { results, warnings, isComplete } = await runPlansInPool(
			{
				runs,
				units,
				early: { looks: looksOfRuns(units), ended },
				signal,
				shardSize,
				summarise: async (plan, study) => caseFigures(plan, study, await resultDigest(study)),
				onProgress({ finished, failed, spared }) {
					latest = {
						asked: before.asked + runs.length * units - spared,
						finished: before.finished + finished,
						failed: before.failed + failed,
					};
					onProgress(latest);
				},
			},
			pool,
		);
		before = latest;
		return { figures: results, warnings, isComplete };
	};
}
