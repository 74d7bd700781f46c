import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import { caseVerdict } from '../../shared/grades/case-figures.ts';
import { caseList } from '../../shared/grades/case-list.ts';
import type { CaseFigures, FreshTest } from '../../shared/grades/result.ts';
import { decidedRuns } from '../../shared/grades/settled-runs.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { CaseRunner } from './grade-cases.ts';

interface Confirmation<Subject> {
	readonly runCases: CaseRunner;
	/** Of each run. */
	readonly units: number;
	/** Each round's seed is this and the round's number. */
	readonly label: string;
	readonly scenarioOf: (subject: Subject) => Scenario;
	/** What must hold, and the confidence of each test. */
	readonly share: number;
	readonly confidence: number;
}

/** Tests each choice's candidates on fresh drives, one after another, until one holds. Both choices' tests of a round are one job. */
export async function confirmInTurn<Subject>(
	candidates: PerChoice<readonly Subject[]>,
	{ runCases, units, label, scenarioOf, share, confidence }: Confirmation<Subject>,
): Promise<{ readonly tests: PerChoice<readonly FreshTest<Subject>[]>; readonly isComplete: boolean }> {
	const tests = perChoice((): FreshTest<Subject>[] => []);
	for (let round = 0; ; round += 1) {
		const open = choiceNames.flatMap((choice) => {
			const subject = candidates[choice][round];
			const isConfirmed = tests[choice].at(-1)?.verdict.decision === 'holds';
			return subject === undefined || isConfirmed ? [] : [{ choice, subject }];
		});
		if (open.length === 0) return { tests, isComplete: true };
		const seed = `${label} ${round + 1}`;
		const cases = caseList();
		const places = open.map(({ subject }) => cases.place(scenarioOf(subject)));
		const rounds = cases.scenarios.map((scenario, at) => ({
			scenario,
			choices: open.filter((_, i) => places[i] === at).map(({ choice }) => choice),
		}));
		const { figures, isComplete } = await runCases(
			cases.scenarios.map((scenario) => ({ scenario, seed })),
			decidedRuns(rounds, units, { share, confidence }),
		);
		if (!isComplete) return { tests, isComplete };
		for (const [i, { choice, subject }] of open.entries()) {
			const verdict = caseVerdict(figures[places[i] as number] as CaseFigures, choice, share, confidence);
			tests[choice].push({ subject, seed, confidence, verdict });
		}
	}
}
