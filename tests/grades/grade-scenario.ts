import type { Grade } from '../../shared/grades/grade.ts';
import { readGrades } from '../../shared/grades/read-grades.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { smallScenario, smallScenarioText } from '../study/small-scenario.ts';

const changes = {
	points: [{ name: 'fast', speed: 6000, torque: 0.05 }],
	trial: { starts: 1, warmup: 6, settle: 6, measured: 12 },
};

/** One point and one start, so that a drive is quick; 80 % of drives within 6° are required. */
export const gradeScenarioText = (): string => smallScenarioText(gradeChanges());
export const gradeScenario = (more: Readonly<Record<string, unknown>> = {}): Scenario =>
	smallScenario({ ...gradeChanges(), ...more });
const gradeChanges = () => ({
	...changes,
	requirement: { angleLimit: 6, crossingsPerHour: 1e6, share: 0.8 },
});

/** Grades as written, with prices where given. */
export function offered(text: string, prices: readonly number[] = []): readonly Grade[] {
	const reading = readGrades(text);
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
	return reading.grades.map((grade, i) => ({ ...grade, price: prices[i] ?? null }));
}
