import { budgetSources, driveAtSides, oneAtATime, scenarioOfLimits } from '../../shared/budgets/budget-sources.ts';
import type { BudgetsResult } from '../../shared/budgets/budgets-result.ts';
import { extremeSides, summariseBudgets } from '../../shared/budgets/summarise-budgets.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import type { DriveDesign } from '../../shared/origins/drive-design.ts';
import { sectorKinds } from '../../shared/origins/mean-errors.ts';
import { sha256 } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { type Collected, collectFigures } from './collect-figures.ts';
import { findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { DoneSoFar, WorkRequest } from './work-request.ts';

export interface BudgetsRequest extends WorkRequest<DoneSoFar> {
	/** Index of the operating point. */
	readonly point: number;
	/** Drives of the Monte Carlo budget. */
	readonly units: number;
}

/** Carrier and ripple phases a drive's figures are a mean over, so that no budget hangs on one moment. */
const phases = 8;

const methods = {
	'the figure': `a drive's mean angle error in each sector kind over ${phases} carrier and ripple phases, from noise-free crossings interpolated between readings, as a change against the drive with everything in the middle of its limits`,
	'extreme value': 'every source at its worse limit by the sign of its sensitivity, and that drive run',
	'root-sum-square': 'root of the summed squares of the sensitivities, per half-width of tolerance',
	'Monte Carlo': '95 % coverage interval, probabilistically symmetric (JCGM 101:2008, 7.7)',
};

/** Drives a request comes to. */
export function budgetsDrives({ scenario, point, units }: BudgetsRequest): number {
	return 1 + 2 * budgetSources(scenario, point).length + extremeDrives + units;
}
const extremeDrives = 2 * choiceNames.length * sectorKinds;

/** Finds the three budgets, on workers of its own. */
export const runBudgets = onOwnWorkers(runBudgetsInPool);

/** The same on workers that live on. */
export async function runBudgetsInPool(request: BudgetsRequest, pool: Pool): Promise<BudgetsResult> {
	const { scenario, point, seed, units, signal, onProgress = () => {}, shardSize } = request;
	const silenceLimit = silenceLimitOf(scenario);
	const sources = budgetSources(scenario, point);
	const limits = scenarioOfLimits(scenario);
	const found = await findCompensation(scenario, pool, silenceLimit, signal);
	const stages: Collected[] = [];
	const stage = async (of: Scenario, design: DriveDesign, drives: number): Promise<Float64Array<ArrayBuffer>> => {
		const before = stages.reduce((sum, one) => sum + one.done.length, 0);
		const failedBefore = stages.reduce((sum, one) => sum + one.failures.length, 0);
		const collected = await collectFigures({
			pool,
			plan: { scenario: of, point, compensation: found.compensation, design, phases },
			drives,
			signal,
			silenceLimit,
			failure: found.failure,
			shardSize,
			onProgress: (finished, failed) =>
				onProgress({ finished: before - failedBefore + finished, failed: failedBefore + failed }),
		});
		const failures = collected.failures.map(({ unit, message }) => ({ unit: before + unit, message }));
		stages.push({ ...collected, failures });
		return collected.figures;
	};
	const singles = oneAtATime(sources);
	const alone = await stage(limits, { kind: 'given', drives: singles }, singles.length);
	const worst = extremeSides(sources, alone).map((sides) => driveAtSides(sources, sides));
	const extreme = await stage(limits, { kind: 'given', drives: worst }, worst.length);
	const drawn = await stage(scenario, { kind: 'random', seed, point }, units);

	const figures = [alone, extreme, drawn];
	const digests = await Promise.all(figures.map(({ buffer }) => sha256(new Uint8Array(buffer))));
	const failures = stages.flatMap((one) => one.failures);
	return summariseBudgets({
		scenario,
		point,
		phases,
		sources,
		alone,
		extreme: stages[1]?.isComplete ? extreme : null,
		drawn: drawn.filter((_, cell) => stages[2]?.done[Math.floor(cell / (choiceNames.length * sectorKinds))] === 1),
		provenance: await provenanceOf({
			scenario,
			seed,
			found,
			digests,
			units: {
				asked: singles.length + worst.length + units,
				finished: stages.reduce((sum, one) => sum + one.done.reduce((done, state) => done + state, 0), 0),
				failed: failures.length,
			},
			partial: stages.some((one) => !one.isComplete),
			failures,
			methods,
		}),
	});
}
