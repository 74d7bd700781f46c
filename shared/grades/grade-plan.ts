import type { Scenario } from '../scenario/scenario.ts';
import { applyGrade, type GradeEffect } from './apply-grade.ts';
import { caseList } from './case-list.ts';
import { type Grade, tightestFirst } from './grade.ts';
import { mixScenarios } from './mixes.ts';
import type { AskedGroup } from './resistor-groups.ts';

export const shownEffects = ['both', 'nominals', 'tolerance'] as const satisfies readonly GradeEffect[];

/** What is run to compare grades, all of it laid down before the first draw. */
export interface GradePlan {
	readonly scenario: Scenario;
	readonly group: AskedGroup;
	/** Tightest first. */
	readonly ladder: readonly Grade[];
	/** Each to be run once. */
	readonly scenarios: readonly Scenario[];
	/** Places among them: the group's resistors exact; each grade's effects; each mix. */
	readonly exactPlace: number;
	readonly gradePlaces: readonly Readonly<Record<(typeof shownEffects)[number], number>>[];
	readonly mixPlaces: readonly number[];
	/** Whether the cheapest mix is sought: over all groups, where every grade has its price. */
	readonly isMixed: boolean;
}

/** @param grades at least one */
export function gradePlan(scenario: Scenario, group: AskedGroup, grades: readonly Grade[]): GradePlan {
	const ladder = tightestFirst(grades);
	const [tightest] = ladder;
	if (tightest === undefined) throw new RangeError('no grades to compare');
	const isMixed = group === 'all' && ladder.every(({ price }) => price !== null);
	const cases = caseList();
	const exactPlace = cases.place(applyGrade(scenario, group, tightest, 'neither'));
	const gradePlaces = ladder.map((grade) => {
		const place = (effect: GradeEffect): number => cases.place(applyGrade(scenario, group, grade, effect));
		return { both: place('both'), nominals: place('nominals'), tolerance: place('tolerance') };
	});
	const mixPlaces = isMixed ? mixScenarios(scenario, ladder).map(cases.place) : [];
	return { scenario, group, ladder, scenarios: cases.scenarios, exactPlace, gradePlaces, mixPlaces, isMixed };
}
