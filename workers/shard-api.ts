import { type FigurePlan, smoothFigures } from '../shared/origins/smooth-figures.ts';
import type { Scenario } from '../shared/scenario/scenario.ts';
import { nominalDelays } from '../shared/study/nominal-delay.ts';
import type { StudyPlan } from '../shared/study/plan.ts';
import { delaysOfScenarios, type ManyPlans, runPlans } from '../shared/study/run-plans.ts';
import { runShard } from '../shared/study/run-shard.ts';

type Report = (done: number) => void;

/**
 * The tasks that workers do, each over a range of indices `from` up to `to`, so
 * that a pool can share any of them out. To add one, add it here: hosts and pool
 * take names and types from this object.
 */
export const shardApi = {
	/** Units of a study. */
	units: (plan: StudyPlan, from: number, to: number, report: Report) =>
		runShard(plan, from, to, { onProgress: report }),
	/** Carrier phases of the nominal drive, for the delay compensation. */
	nominalDelays: (scenario: Scenario, from: number, to: number, report: Report) =>
		nominalDelays(scenario, from, to, report),
	/** Units of several studies, study after study. */
	unitsOfPlans: (many: ManyPlans, from: number, to: number, report: Report) => runPlans(many, from, to, report),
	/** Carrier phases of several nominal drives, drive after drive. */
	nominalDelaysOfScenarios: (scenarios: readonly Scenario[], from: number, to: number, report: Report) =>
		delaysOfScenarios(scenarios, from, to, report),
	/** Mean sector errors of a design's drives, free of sampling. */
	smoothFigures: (plan: FigurePlan, from: number, to: number, report: Report) =>
		smoothFigures(plan, from, to, { onProgress: report }),
};

export type ShardApi = typeof shardApi;
export type TaskName = keyof ShardApi;
export type TaskInput<Name extends TaskName> = Parameters<ShardApi[Name]>[0];
export type TaskOutput<Name extends TaskName> = ReturnType<ShardApi[Name]>;
