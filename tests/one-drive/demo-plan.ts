import { readFileSync } from 'node:fs';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { projectRoot } from '../../src/tooling/project.mjs';

/** A plan of one of the demo scenarios, with values of one's own in place of the file's. */
export function demoPlan(file: string, values: Readonly<Record<string, number>> = {}): StudyPlan {
	const reading = readScenario(readFileSync(`${projectRoot}scenarios/${file}`, 'utf8'));
	if (!('scenario' in reading)) throw new Error(`${file} has problems`);
	const { scenario } = reading;
	const points = scenario.points.map((point) => ({
		...point,
		values: Object.fromEntries(Object.entries(point.values).map(([id, value]) => [id, values[id] ?? value])),
	}));
	return {
		scenario: { ...scenario, values: { ...scenario.values, ...values }, points },
		seed: 'demo',
		compensation: { halfBus: 20e-6, virtualNeutral: 20e-6 },
	};
}
