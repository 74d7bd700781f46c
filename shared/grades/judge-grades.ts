import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { fixedSequence } from '../statistics/fixed-sequence.ts';
import type { Verdict } from '../statistics/verdict.ts';
import { requirementOf } from '../study/unit-passes.ts';
import { caseVerdict } from './case-figures.ts';
import type { Grade } from './grade.ts';
import type { GradePlan } from './grade-plan.ts';
import { mostMixTests } from './methods.ts';
import { type Mix, mixes } from './mixes.ts';
import { perChoice } from './per-choice.ts';
import { resistorCount } from './resistor-groups.ts';
import type { CaseFigures } from './result.ts';

/** What the runs with the first seed say. */
export interface Judgement {
	/** For each grade of the ladder; null where it was not judged. */
	readonly judged: PerChoice<readonly (Verdict | null)[]>;
	/** Grades that hold, loosest first: to be confirmed in this order. */
	readonly held: PerChoice<readonly Grade[]>;
	/** Every mix, cheapest first. */
	readonly searched: PerChoice<readonly { readonly mix: Mix; readonly verdict: Verdict }[]>;
	/** The cheapest mixes that held, in the order in which fresh drives are to try them. */
	readonly candidates: PerChoice<readonly Mix[]>;
}

/**
 * Grades judged tightest first, each at the required confidence, up to the first
 * that does not hold: with that confidence no grade is said to hold that does
 * not, for each choice by itself. Nothing is judged where the runs were cut
 * short, and no grade for a choice whose board has no such resistor.
 *
 * @param figures of the plan's scenarios
 */
export function judgeGrades(plan: GradePlan, figures: readonly CaseFigures[], isComplete: boolean): Judgement {
	const { share, confidence } = requirementOf(plan.scenario);
	const verdictAt = (place: number, choice: ChoiceName): Verdict =>
		caseVerdict(figures[place] as CaseFigures, choice, share, confidence);
	const holds = ({ decision }: Verdict): boolean => decision === 'holds';
	const judged = perChoice((choice): readonly (Verdict | null)[] =>
		isComplete && resistorCount(plan.group, choice) > 0
			? fixedSequence(
					plan.gradePlaces.map(({ both }) => verdictAt(both, choice)),
					holds,
				)
			: plan.ladder.map(() => null),
	);
	const lists = plan.isMixed && isComplete ? mixes(plan.ladder) : null;
	const searched = perChoice((choice) =>
		(lists?.[choice] ?? []).map((mix) => ({ mix, verdict: verdictAt(plan.mixPlaces[mix.place] as number, choice) })),
	);
	return {
		judged,
		held: perChoice((choice) =>
			plan.ladder.filter((_, place) => judged[choice][place]?.decision === 'holds').reverse(),
		),
		searched,
		candidates: perChoice((choice) =>
			searched[choice]
				.filter(({ verdict }) => holds(verdict))
				.slice(0, mostMixTests)
				.map(({ mix }) => mix),
		),
	};
}
