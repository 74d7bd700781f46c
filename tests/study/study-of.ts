import { choiceNames } from '../../shared/drive/drive.ts';
import { scenarioDigest } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { emptyStudy, failUnits, mergeShard } from '../../shared/study/merge.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { smallScenario } from './small-scenario.ts';

interface StudyOptions {
	readonly scenario?: Scenario;
	readonly seed?: string;
	/** A unit that was not simulated, and one that is made to lose lock at the last point with half-bus. */
	readonly failed?: number;
	readonly lost?: number;
}

/** A study of a few units without any worker, with the units behind it. */
export async function studyOf(
	units: number,
	{ scenario = smallScenario(), seed = 'few', failed, lost }: StudyOptions = {},
): Promise<{ readonly result: StudyResult; readonly record: UnitRecord }> {
	const plan = { scenario, seed, compensation: { halfBus: 75e-6, virtualNeutral: 75e-6 } };
	const study = emptyStudy(units, scenario.points.length);
	const end = failed ?? units;
	if (end > 0) mergeShard(study, runShard(plan, 0, end));
	if (failed !== undefined) {
		failUnits(study, failed, failed + 1, 'the worker failed');
		if (failed + 1 < units) mergeShard(study, runShard(plan, failed + 1, units));
	}
	if (lost !== undefined) {
		const cell = ((lost + 1) * scenario.points.length - 1) * choiceNames.length;
		study.columns.lost[cell] = 1;
		study.columns.unitError[cell] = Number.POSITIVE_INFINITY;
		study.columns.judgedError[cell] = Number.POSITIVE_INFINITY;
	}
	const result = summarise(plan, study, {
		scenarioDigest: await scenarioDigest(scenario),
		resultDigest: await resultDigest(study),
		partial: false,
		warnings: [],
	});
	return { result, record: { plan, study } };
}
