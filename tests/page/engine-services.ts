import { perChoice } from '../../shared/drive/per-choice.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { drivesNear } from '../../shared/study/drives-near.ts';
import { emptyStudy, mergeShard } from '../../shared/study/merge.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { pointChange, type UnitRecord } from '../../shared/study/point-change.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import type { PointResult } from '../../shared/study/result.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { recordShelf } from '../../src/host/record-shelf.ts';
import type { Services } from '../../src/page/model/services.ts';

export function simulated(plan: StudyPlan, units: number): UnitRecord {
	const study = emptyStudy(units, plan.scenario.points.length);
	mergeShard(study, runShard(plan, 0, units));
	return { plan, study };
}

export const planOf = (scenario: Scenario, seed = 'demo'): StudyPlan => ({
	scenario,
	seed,
	compensation: nominalCompensation(scenario).compensation,
});

const noDigest = { scenarioDigest: '', resultDigest: '', partial: false, warnings: [] };

/** The engine itself in this thread, for tests of what the page makes of it. */
export function engineServices(text: string): Services & { readonly asked: string[] } {
	const asked: string[] = [];
	const records = recordShelf();
	return {
		asked,
		async pointChange(before, after) {
			const [first, second] = [records.at(before.record), records.at(after.record)];
			return first && second
				? pointChange({ record: first, point: before.point }, { record: second, point: after.point })
				: null;
		},
		async drivesNear({ record, point }, where) {
			const study = records.at(record)?.study;
			return study ? perChoice((_, choice) => drivesNear(study, { point, choice, ...where })) : null;
		},
		demos: [{ kind: 'demo', file: 'small.json', text }],
		read: readScenario,
		theme: () => ({
			ink: '',
			quiet: '',
			rule: '',
			paper: '',
			font: '',
			choice: { halfBus: { line: '', fill: '' }, virtualNeutral: { line: '', fill: '' } },
		}),
		now: () => 0,
		address: { read: () => '', write: () => {}, onChange: () => {} },
		async study({ scenario, seed, units }) {
			asked.push(`study ${units}`);
			const record = simulated(planOf(scenario, seed), units);
			return { result: summarise(record.plan, record.study, noDigest), record: records.put(record) };
		},
		async preview({ scenario, seed, units, point }) {
			asked.push(`preview ${units} at ${point}`);
			const { compensation } = nominalCompensation(scenario);
			const record = simulated(pointPlan(scenario, point, { seed, compensation, starts: 1 }), units);
			return {
				point: summarise(record.plan, record.study, noDigest).points[0] as PointResult,
				units: { asked: units, finished: units, failed: 0 },
				starts: 1,
				record: records.put(record),
				isComplete: true,
			};
		},
		async compare({ scenarios, point, seed, units }) {
			asked.push(`compare ${scenarios.length} at ${point}`);
			return scenarios.map((scenario) => {
				const { compensation } = nominalCompensation(scenario);
				return records.put(simulated(pointPlan(scenario, point, { seed, compensation }), units));
			});
		},
	};
}
