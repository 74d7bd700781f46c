import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { type Decision, decisionsAhead, type Outcomes } from '../statistics/verdict.ts';
import { choiceOutcomes } from '../study/choice-verdict.ts';
import type { StudyColumns } from '../study/merge.ts';
import { requirementOf } from '../study/unit-passes.ts';
import type { GradePlan } from './grade-plan.ts';
import { kindsOf, ladderConfidence } from './judge-grades.ts';
import { drivesApart } from './methods.ts';
import { mixes } from './mixes.ts';
import { resistorCount } from './resistor-groups.ts';

/** Runs by their places in the plan, each with its drives so far. */
type GoingOn = ReadonlyMap<number, StudyColumns>;

/**
 * Which of a comparison's own runs may end, look by look: those of grades and
 * mixes of which nothing that is said can change any more, whatever becomes of
 * the drives to come. What the fixed number of drives decides stays as it is, to the last.
 *
 * @param units of a run that does not end early
 * @returns to be asked after every look: the places of runs that are to end
 */
export function settledRuns(plan: GradePlan, units: number): (goingOn: GoingOn) => number[] {
	const { share, confidence } = requirementOf(plan.scenario);
	const ofOne = ladderConfidence(plan.ladder, confidence);
	const outcomes = new Map<number, PerChoice<Outcomes>>();
	// a run that never went on, since its nominal drive failed, has no drive that passes or fails
	const nothing: Outcomes = { passed: 0, failed: 0, notSimulated: units };
	const lists = plan.isMixed ? mixes(plan.ladder) : null;
	const ahead = (place: number, choice: ChoiceName, sureness: number) =>
		decisionsAhead(outcomes.get(place)?.[choice] ?? nothing, units, share, sureness);

	/** Places whose decision is still to be made: grades up to the first that can no longer hold, mixes that may yet hold. */
	const open = (): Set<number> => {
		const found = new Set([plan.exactPlace]);
		for (const choice of choiceNames) {
			if (resistorCount(plan.group, choice) > 0) {
				for (const { from, to } of kindsOf(plan.ladder)) {
					for (const { both } of plan.gradePlaces.slice(from, to)) {
						const { worst, best } = ahead(both, choice, ofOne);
						if (worst !== best) found.add(both);
						if (best !== 'holds') break;
					}
				}
			}
			for (const { place } of lists?.[choice] ?? []) {
				const run = plan.mixPlaces[place] as number;
				const { worst, best } = ahead(run, choice, confidence);
				if (best === 'holds' && worst !== 'holds') found.add(run);
			}
		}
		return found;
	};
	return (goingOn) => {
		for (const [place, study] of goingOn) {
			outcomes.set(place, choiceOutcomes(plan.scenarios[place] as Scenario, study));
		}
		const stay = open();
		return [...goingOn.keys()].filter((place) => !stay.has(place));
	};
}

/** Which runs of one test each may end: where for each of the choices tested with it the decision is certain. */
export function decidedRuns(
	tests: readonly { readonly scenario: Scenario; readonly choices: readonly ChoiceName[] }[],
	units: number,
	{ share, confidence }: { readonly share: number; readonly confidence: number },
): (goingOn: GoingOn) => number[] {
	return (goingOn) =>
		[...goingOn].flatMap(([place, study]) => {
			const { scenario, choices } = tests[place] as (typeof tests)[0];
			const outcomes = choiceOutcomes(scenario, study);
			const isCertain = choices.every((choice) => {
				const { worst, best } = decisionsAhead(outcomes[choice], units, share, confidence);
				return worst === best;
			});
			return isCertain ? [place] : [];
		});
}

/**
 * Drives that the runs of nominal values and tolerances alone take: as many as
 * their grade's own run where the sentence says what that one falls short by,
 * else a few.
 *
 * @param own of each grade's own run
 * @param judged of each grade; null where it was not judged
 */
export function drivesOfEffects(
	plan: GradePlan,
	own: readonly number[],
	judged: PerChoice<readonly ({ readonly decision: Decision } | null)[]>,
): ReadonlyMap<number, number> {
	const told = new Set<number>();
	for (const choice of choiceNames) {
		for (const { from, to } of kindsOf(plan.ladder)) {
			const held = judged[choice].slice(from, to).findLastIndex((verdict) => verdict?.decision === 'holds');
			if (held >= 0 && from + held + 1 < to) told.add(from + held + 1);
		}
	}
	const drives = new Map<number, number>();
	for (const [grade, { nominals, tolerance }] of plan.gradePlaces.entries()) {
		const all = own[grade] as number;
		const wanted = told.has(grade) ? all : Math.min(all, drivesApart);
		for (const place of [nominals, tolerance]) drives.set(place, Math.max(wanted, drives.get(place) ?? 0));
	}
	return drives;
}
