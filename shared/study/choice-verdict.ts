import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { sequentialVerdict } from '../statistics/sequential-verdict.ts';
import { type Outcomes, verdict } from '../statistics/verdict.ts';
import { type StudyColumns, unitStates } from './merge.ts';
import type { ChoiceVerdict } from './result.ts';
import { requirementOf, unitJudge } from './unit-passes.ts';
import { verdictSentence } from './verdict-sentence.ts';

/**
 * Whether each choice meets the scenario's requirement at every operating point.
 * Units that could not be simulated count against either decision; those not yet
 * run do not count.
 *
 * @param isSequential whether the study stops by what it finds: limits then hold at every look
 */
export function choiceVerdicts(
	scenario: Scenario,
	study: StudyColumns,
	isSequential: boolean,
): PerChoice<ChoiceVerdict> {
	const requirement = requirementOf(scenario);
	const outcomes = choiceOutcomes(scenario, study);
	const decide = isSequential ? sequentialVerdict : verdict;
	return perChoice((choice): ChoiceVerdict => {
		const count = outcomes[choice];
		const decided = {
			...count,
			...decide(count, requirement.share, requirement.confidence),
			limits: isSequential ? ('confidence sequence' as const) : ('Clopper–Pearson' as const),
		};
		return { ...decided, sentence: verdictSentence(choice, requirement, decided) };
	});
}

/** How many of the units that were run pass every operating point with each choice. */
export function choiceOutcomes(scenario: Scenario, study: StudyColumns): PerChoice<Required<Outcomes>> {
	const judge = unitJudge(scenario);
	return perChoice((_, choice) => {
		const count = { passed: 0, failed: 0, notSimulated: 0 };
		for (let unit = 0; unit < study.units; unit += 1) {
			const state = study.states[unit];
			if (state === unitStates.failed) count.notSimulated += 1;
			else if (state === unitStates.finished) {
				if (judge.passes(study.columns, unit, choice)) count.passed += 1;
				else count.failed += 1;
			}
		}
		return count;
	});
}
