import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { fixedSequence } from '../statistics/fixed-sequence.ts';
import type { Verdict } from '../statistics/verdict.ts';
import { requirementOf } from '../study/unit-passes.ts';
import { caseVerdict } from './case-figures.ts';
import { type Grade, isArray } from './grade.ts';
import type { GradePlan } from './grade-plan.ts';
import { mostMixTests } from './methods.ts';
import { type Mix, mixes } from './mixes.ts';
import { resistorCount } from './resistor-groups.ts';
import type { CaseFigures } from './result.ts';

/** What the runs with the first seed say. */
export interface Judgement {
	/** For each grade of the ladder; null where it was not judged. */
	readonly judged: PerChoice<readonly (Verdict | null)[]>;
	/** Grades that hold, loosest first: to be confirmed in this order. For each kind that there is. */
	readonly held: readonly PerChoice<readonly Grade[]>[];
	/** Every mix, cheapest first. */
	readonly searched: PerChoice<readonly { readonly mix: Mix; readonly verdict: Verdict }[]>;
	/** The cheapest mixes that held, in the order in which fresh drives are to try them. */
	readonly candidates: PerChoice<readonly Mix[]>;
}

/**
 * Grades judged tightest first up to the first that does not hold, loose
 * resistors and arrays each in an order of their own with half the chance of
 * error (Bonferroni) where there are both: with the required confidence no grade
 * is said to hold that does not, for each choice by itself. Nothing is judged where the runs were cut
 * short, and no grade for a choice whose board has no such resistor.
 *
 * @param figures of the plan's scenarios
 */
export function judgeGrades(plan: GradePlan, figures: readonly CaseFigures[], isComplete: boolean): Judgement {
	const { share, confidence } = requirementOf(plan.scenario);
	const verdictAt = (place: number, choice: ChoiceName, sureness = confidence): Verdict =>
		caseVerdict(figures[place] as CaseFigures, choice, share, sureness);
	const holds = ({ decision }: Verdict): boolean => decision === 'holds';
	const kinds = kindsOf(plan.ladder);
	const ofOne = ladderConfidence(plan.ladder, confidence);
	const judged = perChoice((choice): readonly (Verdict | null)[] =>
		isComplete && resistorCount(plan.group, choice) > 0
			? kinds.flatMap(({ from, to }) =>
					fixedSequence(
						plan.gradePlaces.slice(from, to).map(({ both }) => verdictAt(both, choice, ofOne)),
						holds,
					),
				)
			: plan.ladder.map(() => null),
	);
	const lists = plan.isMixed && isComplete ? mixes(plan.ladder) : null;
	const searched = perChoice((choice) =>
		(lists?.[choice] ?? []).map((mix) => ({ mix, verdict: verdictAt(plan.mixPlaces[mix.place] as number, choice) })),
	);
	return {
		judged,
		held: kinds.map(({ from, to }) =>
			perChoice((choice) =>
				plan.ladder
					.slice(from, to)
					.filter((_, place) => judged[choice][from + place]?.decision === 'holds')
					.reverse(),
			),
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

/** Where in the ladder the loose resistors stand and where the arrays, as far as there are any. */
export function kindsOf(ladder: readonly Grade[]): readonly { readonly from: number; readonly to: number }[] {
	const loose = ladder.filter((grade) => !isArray(grade)).length;
	return [
		{ from: 0, to: loose },
		{ from: loose, to: ladder.length },
	].filter(({ from, to }) => to > from);
}

/** Confidence of each test, so that the orders together keep the one asked. */
export const ladderConfidence = (ladder: readonly Grade[], confidence: number): number =>
	1 - (1 - confidence) / kindsOf(ladder).length;
