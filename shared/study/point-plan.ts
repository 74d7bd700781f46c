import type { Scenario } from '../scenario/scenario.ts';
import type { StudyPlan } from './plan.ts';

/**
 * A plan for one operating point of a scenario, lifted out with the moments and
 * the noise that it has there: with as many starts, its units are those of the
 * whole study at that point, to the last bit.
 *
 * @param starts of each unit, where fewer than the scenario's are to do
 */
export function pointPlan(
	scenario: Scenario,
	point: number,
	{ seed, compensation, starts }: Omit<StudyPlan, 'scenario' | 'pointKeys'> & { readonly starts?: number },
): StudyPlan {
	const one = scenario.points[point];
	if (!one) throw new RangeError(`point ${point} of ${scenario.points.length}`);
	return {
		scenario: {
			...scenario,
			values: { ...scenario.values, ...one.values, ...(starts !== undefined && { 'trial.starts': starts }) },
			points: [one],
			referencePoint: 0,
		},
		seed,
		compensation,
		pointKeys: [point],
	};
}
