import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { type StudyColumns, unitStates } from '../study/merge.ts';
import { unitJudge } from '../study/unit-passes.ts';

/** For each unit and choice, 1 where it was simulated and passes every point. */
export function passesOf(scenario: Scenario, { states, columns }: StudyColumns): PerChoice<Uint8Array> {
	const judge = unitJudge(scenario);
	const of = (choice: number): Uint8Array =>
		states.map((state, unit) => (state === unitStates.finished && judge.passes(columns, unit, choice) ? 1 : 0));
	return perChoice((_, choice) => of(choice));
}
