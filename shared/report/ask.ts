import type { Grade } from '../grades/grade.ts';
import { readOffer, usualGrades } from '../grades/read-offer.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Asked, CalculationName } from './report.ts';

/** What may be computed for a report beside its study, in the order in which it is shown. */
export const furtherNames = [
	'envelope',
	'origins',
	'budgets',
	'grades',
	'weakest',
] as const satisfies readonly CalculationName[];
export type FurtherName = (typeof furtherNames)[number];

/**
 * What further calculations of a report ask: as many drives as the study has,
 * within what each command takes by itself, so that a small report stays small.
 *
 * @param units drives of the study
 */
export function askFurther(
	names: readonly FurtherName[],
	{ points }: Pick<Scenario, 'points'>,
	{ seed, units }: { readonly seed: string; readonly units: number },
): readonly Asked[] {
	const between = (least: number, most: number, drives = units): number => Math.min(most, Math.max(least, drives));
	const atEvery = (asked: (point: number) => Asked): readonly Asked[] => points.map((_, point) => asked(point));
	const all: Readonly<Record<FurtherName, () => readonly Asked[]>> = {
		envelope: () => [{ name: 'envelope', asked: { seed, units: between(1, 300), combinations: 512 } }],
		origins: () =>
			atEvery((point) => ({
				name: 'origins',
				asked: { seed, point, rows: between(20, 500, Math.ceil(units / 2)), units: 0 },
			})),
		budgets: () => atEvery((point) => ({ name: 'budgets', asked: { seed, point, units: between(100, 1000) } })),
		grades: () => [{ name: 'grades', asked: { seed, group: 'all', grades: gradesAsked(), units: between(1, 1000) } }],
		weakest: () => [{ name: 'weakest', asked: { seed, units: between(100, 4000, 4 * units) } }],
	};
	return furtherNames.filter((name) => names.includes(name)).flatMap((name) => all[name]());
}

function gradesAsked(): readonly Grade[] {
	const offer = readOffer(usualGrades, null);
	return 'grades' in offer ? offer.grades : [];
}
