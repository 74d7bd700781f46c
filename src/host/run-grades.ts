import { applyGrade } from '../../shared/grades/apply-grade.ts';
import type { Grade } from '../../shared/grades/grade.ts';
import { gradePlan } from '../../shared/grades/grade-plan.ts';
import { gradesResult } from '../../shared/grades/grades-result.ts';
import { judgeGrades } from '../../shared/grades/judge-grades.ts';
import { mixTestConfidence } from '../../shared/grades/methods.ts';
import type { AskedGroup } from '../../shared/grades/resistor-groups.ts';
import type { CaseFigures, GradesResult } from '../../shared/grades/result.ts';
import { drivesOfEffects, settledRuns } from '../../shared/grades/settled-runs.ts';
import { digestOfAll, scenarioDigest } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { StudyColumns } from '../../shared/study/merge.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { confirmInTurn } from './confirm-in-turn.ts';
import { type CaseProgress, caseRunner } from './grade-cases.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';

export interface GradesRequest {
	readonly scenario: Scenario;
	readonly group: AskedGroup;
	/** At least one; with prices for all of them and the group `all`, the cheapest mix is sought too. */
	readonly grades: readonly Grade[];
	/** Not empty; fresh drives are drawn with this and a few words more. */
	readonly seed: string;
	/** Of each run. */
	readonly units: number;
	/** Cuts it short: it then resolves with what finished, marked partial. */
	readonly signal?: AbortSignal | undefined;
	/** At most ten times a second. */
	readonly onProgress?: (progress: CaseProgress) => void;
	/** Drives a shard; the pool chooses if not given. No result depends on it. */
	readonly shardSize?: number;
}

/** Compares grades on workers of its own. */
export const runGrades = onOwnWorkers(runGradesInPool);

/** Which grade of a group is enough, on workers that live on. */
export async function runGradesInPool(request: GradesRequest, pool: Pool): Promise<GradesResult> {
	const { scenario, group, seed, units } = request;
	const { share, confidence } = requirementOf(scenario);
	const plan = gradePlan(scenario, group, request.grades);
	const runCases = caseRunner(request, pool);
	const figures: CaseFigures[] = [];
	const warnings = new Set<string>();
	const run = async (places: readonly number[], ended: (goingOn: ReadonlyMap<number, StudyColumns>) => number[]) => {
		if (places.length === 0) return true;
		const scenarios = places.map((place) => plan.scenarios[place] as Scenario);
		const own = await runCases(
			scenarios.map((one) => ({ scenario: one, seed })),
			(goingOn) => {
				const byPlace = new Map([...goingOn].map(([i, study]) => [places[i] as number, study]));
				return ended(byPlace).map((place) => places.indexOf(place));
			},
		);
		for (const [i, place] of places.entries()) figures[place] = own.figures[i] as CaseFigures;
		for (const warning of own.warnings) warnings.add(warning);
		return own.isComplete;
	};
	const judgedPlaces = [...new Set([plan.exactPlace, ...plan.gradePlaces.map(({ both }) => both), ...plan.mixPlaces])];
	const isJudged = await run(judgedPlaces, settledRuns(plan, units));
	const judgement = judgeGrades(plan, figures, isJudged);

	const apart = drivesOfEffects(
		plan,
		plan.gradePlaces.map(({ both }) => (figures[both] as CaseFigures).units.asked),
		judgement.judged,
	);
	const effectPlaces = [...apart.keys()].filter((place) => !judgedPlaces.includes(place));
	const isComplete =
		(await run(effectPlaces, (goingOn) =>
			[...goingOn].flatMap(([place, study]) => (study.units >= (apart.get(place) as number) ? [place] : [])),
		)) && isJudged;

	const gradeTests = [];
	for (const [kind, held] of judgement.held.entries()) {
		gradeTests.push(
			await confirmInTurn(held, {
				runCases,
				units,
				label: `${seed} fresh${kind > 0 ? ' array' : ''}`,
				scenarioOf: (grade) => applyGrade(scenario, group, grade),
				share,
				confidence,
			}),
		);
	}
	const mixTests = await confirmInTurn(judgement.candidates, {
		runCases,
		units,
		label: `${seed} mix`,
		scenarioOf: ({ place }) => plan.scenarios[plan.mixPlaces[place] as number] as Scenario,
		share,
		confidence: mixTestConfidence({ confidence }),
	});
	return gradesResult({
		plan,
		figures,
		judgement,
		gradeTests: gradeTests.map(({ tests }) => tests),
		mixTests: mixTests.tests,
		seed,
		units,
		scenarioDigest: await scenarioDigest(scenario),
		resultDigest: await digestOfAll(figures.map(({ resultDigest }) => resultDigest)),
		isPartial: !(isComplete && mixTests.isComplete && gradeTests.every((tests) => tests.isComplete)),
		warnings: [...warnings],
	});
}
