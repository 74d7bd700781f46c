import { nearestName } from '../../shared/scenario/nearest-name.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { text } from './common-options.ts';
import type { Asked } from './scenario-command.ts';

/** The operating point a command is about. */
export const pointOption = text(
	'NAME',
	"The operating point, by its name in the scenario. Default: the scenario's reference point.",
	null,
	200,
);

/** Index of the point named, or what is wrong with the name. */
export function pointNamed(
	scenario: Scenario,
	name: string | null,
): { readonly point: number } | { readonly problem: Problem } {
	if (name === null) return { point: scenario.referencePoint };
	const names = scenario.points.map((one) => one.name);
	const point = names.indexOf(name);
	if (point >= 0) return { point };
	const near = nearestName(name, names);
	const hint = near === undefined ? `; the scenario has ${names.join(', ')}` : `; did you mean ${near}?`;
	return { problem: { path: '--point', value: name, message: `is no operating point of the scenario${hint}` } };
}

/** What is asked for at the point of that name, or what is wrong with the name. */
export function askedAt<Rest extends object>(
	scenario: Scenario,
	name: string | null,
	rest: Rest,
): Asked<Rest & { readonly scenario: Scenario; readonly point: number }> {
	const named = pointNamed(scenario, name);
	if ('problem' in named) return { problems: [named.problem] };
	return { request: { ...rest, scenario, point: named.point } };
}
