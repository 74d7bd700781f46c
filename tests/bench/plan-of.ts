import type { Scenario } from '../../shared/scenario/scenario.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';

/** The bench's study of a scenario. */
export const planOf = (scenario: Scenario): StudyPlan => ({
	scenario,
	seed: 'bench',
	compensation: nominalCompensation(scenario).compensation,
});
