import { drawsWords } from '../../shared/replicates/draws-words.ts';
import { type ReplicateFigures, replicateFigures } from '../../shared/replicates/replicate-figures.ts';
import type { ReplicatesResult, StratifiedKind } from '../../shared/replicates/replicates-result.ts';
import { replicatesSentence } from '../../shared/replicates/replicates-sentence.ts';
import { replicateMethods, summariseReplicates } from '../../shared/replicates/summarise-replicates.ts';
import type { Draws } from '../../shared/sampling/draws.ts';
import { failuresInOrder, finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { runPlansInPool } from './run-plans.ts';
import type { DoneSoFar, WorkRequest } from './work-request.ts';

export interface ReplicatesRequest extends WorkRequest<DoneSoFar> {
	readonly draws: StratifiedKind;
	readonly replicates: number;
	/** Of each replicate. */
	readonly units: number;
}

/** Runs a study as independent replicates of stratified draws. */
export async function runReplicatesInPool(request: ReplicatesRequest, pool: Pool): Promise<ReplicatesResult> {
	const { scenario, seed, draws: kind, replicates, units, signal, onProgress, shardSize } = request;
	const draws: Draws = kind === 'latin' ? { kind, units } : { kind };
	const { results, warnings, isComplete } = await runPlansInPool(
		{
			runs: Array.from({ length: replicates }, (_, replicate) => ({ scenario, seed: `${seed} ${replicate}`, draws })),
			units,
			signal,
			...(onProgress && { onProgress }),
			shardSize,
			summarise: async (plan: StudyPlan, study: StudyColumns) => ({
				compensation: plan.compensation,
				finished: finishedUnits(study).length,
				failures: failuresInOrder(study),
				digest: await resultDigest(study),
				figures: replicateFigures(scenario, study),
			}),
		},
		pool,
	);
	const [first] = results;
	if (first === undefined) throw new RangeError(`${replicates} replicates`);
	const whole: readonly ReplicateFigures[] = results.map(({ figures }) => figures).filter(({ isWhole }) => isWhole);
	const failures = results.flatMap((replicate, place) =>
		replicate.failures.map(({ unit, message }) => ({ unit: place * units + unit, message })),
	);
	const stated = { kind, replicates: { asked: replicates, finished: whole.length }, units };
	const provenance = await provenanceOf({
		scenario,
		seed,
		found: { compensation: first.compensation, warnings },
		digests: results.map(({ digest }) => digest),
		units: {
			asked: replicates * units,
			finished: results.reduce((sum, { finished }) => sum + finished, 0),
			failed: failures.length,
		},
		partial: !isComplete,
		failures,
		methods: { draws: drawsWords(stated), ...replicateMethods },
	});
	const requirement = requirementOf(scenario);
	const result: Omit<ReplicatesResult, 'sentence'> = {
		format: 'anglespread-replicates',
		formatVersion: 1,
		provenance: { ...provenance, draws: stated },
		requirement: { ...requirement, sentence: requirementSentence(requirement) },
		...summariseReplicates(scenario, whole, units),
	};
	return { ...result, sentence: replicatesSentence(result) };
}
