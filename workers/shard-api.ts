import { type IntervalPlan, sectorIntervals } from '../shared/measured/sector-intervals.ts';
import type { DriveRequest } from '../shared/one-drive/drive-request.ts';
import { driveWindow, type WindowRequest } from '../shared/one-drive/drive-window.ts';
import { driveCauses, unitOutcomes } from '../shared/one-drive/unit-outcomes.ts';
import { type FigurePlan, smoothFigures } from '../shared/origins/smooth-figures.ts';
import { type JudgePlan, judgeDrives } from '../shared/rare/judge-drives.ts';
import type { Scenario } from '../shared/scenario/scenario.ts';
import type { StudyPlan } from '../shared/study/plan.ts';
import { delaysOfScenarios, type ManyPlans, runPlans } from '../shared/study/run-plans.ts';
import { runShard } from '../shared/study/run-shard.ts';
import { runVariants } from '../shared/variants/run-variants.ts';
import type { VariantList } from '../shared/variants/variant.ts';
import { runVotes, type VotesPlan } from '../shared/votes/run-votes.ts';

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
	/** Units of several studies, study after study. */
	unitsOfPlans: (many: ManyPlans, from: number, to: number, report: Report) => runPlans(many, from, to, report),
	/** Carrier phases of nominal drives, drive after drive, for the delay compensation. */
	nominalDelaysOfScenarios: (scenarios: readonly Scenario[], from: number, to: number, report: Report) =>
		delaysOfScenarios(scenarios, from, to, report),
	/** Every variant of every unit, unit after unit. */
	unitsOfVariants: (list: VariantList, from: number, to: number, report: Report) => runVariants(list, from, to, report),
	/** Units of a study, and their readings under every cell of filters and noise. */
	unitsOfVotes: (plan: VotesPlan, from: number, to: number, report: Report) => runVotes(plan, from, to, report),
	/** Every start of one unit at every point. */
	unitOutcomes: (of: { readonly plan: StudyPlan; readonly unit: number }, from: number, to: number, report: Report) =>
		unitOutcomes(of, from, to, report),
	/** One drive as it is and with each disturbance taken out. */
	driveCauses: (request: DriveRequest, from: number, to: number, report: Report) =>
		driveCauses(request, from, to, report),
	/** A stretch of one drive's run, to be drawn: index 0 alone. */
	driveWindow: (request: WindowRequest) => driveWindow(request),
	/** Drives of given or weighted parts, each judged by the requirement. */
	judgedDrives: (plan: JudgePlan, from: number, to: number, report: Report) => judgeDrives(plan, from, to, report),
	/** Times between commutations of drives at one operating point. */
	sectorIntervals: (plan: IntervalPlan, from: number, to: number, report: Report) =>
		sectorIntervals(plan, from, to, report),
	/** Mean sector errors of a design's drives, free of sampling. */
	smoothFigures: (plan: FigurePlan, from: number, to: number, report: Report) =>
		smoothFigures(plan, from, to, { onProgress: report }),
};

export type ShardApi = typeof shardApi;
export type TaskName = keyof ShardApi;
export type TaskInput<Name extends TaskName> = Parameters<ShardApi[Name]>[0];
export type TaskOutput<Name extends TaskName> = ReturnType<ShardApi[Name]>;
