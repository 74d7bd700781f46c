import { expect, test } from 'vitest';
import { gradePlan } from '../../shared/grades/grade-plan.ts';
import { judgeGrades } from '../../shared/grades/judge-grades.ts';
import { mixTestConfidence } from '../../shared/grades/methods.ts';
import type { AskedGroup } from '../../shared/grades/resistor-groups.ts';
import type { CaseFigures } from '../../shared/grades/result.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { madeUpFigures } from './figures.ts';
import { offered } from './grade-scenario.ts';

// of 100 drives 96 must pass to show 90 % with 95 % confidence, and 85 or fewer show that it fails (exact binomial)
const scenario = smallScenario({ requirement: { share: 0.9 } });
/** The plan with so many passing drives at each grade of the ladder, tightest first. */
function judged(group: AskedGroup, halfBus: readonly number[], virtualNeutral: readonly number[], isComplete = true) {
	const plan = gradePlan(scenario, group, offered('5 %, 1 %, 0.1 %'));
	const figures: CaseFigures[] = plan.scenarios.map(() => madeUpFigures(0, 0));
	plan.gradePlaces.forEach(({ both }, i) => {
		figures[both] = madeUpFigures(halfBus[i] ?? 0, virtualNeutral[i] ?? 0);
	});
	return judgeGrades(plan, figures, isComplete);
}
const names = (grades: readonly { readonly name: string }[]): readonly string[] => grades.map(({ name }) => name);

test('99, 90 and again 99 of 100: the tightest holds, the middle is undecided, and the loosest is not judged', () => {
	const { judged: verdicts, held } = judged('all', [99, 90, 99], [99, 99, 60]);
	expect(verdicts.halfBus.map((one) => one?.decision ?? null)).toEqual(['holds', 'undecided', null]);
	expect(verdicts.virtualNeutral.map((one) => one?.decision ?? null)).toEqual(['holds', 'holds', 'fails']);
	expect(names(held[0]?.halfBus ?? [])).toEqual(['0.1 %']);
	expect(names(held[0]?.virtualNeutral ?? [])).toEqual(['1 %', '0.1 %']);
});

test('where the tightest fails nothing holds, however the others look', () => {
	const { judged: verdicts, held } = judged('all', [60, 100, 100], [100, 100, 100]);
	expect(verdicts.halfBus.map((one) => one?.decision ?? null)).toEqual(['fails', null, null]);
	expect(held[0]?.halfBus ?? []).toEqual([]);
	expect(names(held[0]?.virtualNeutral ?? [])).toEqual(['5 %', '1 %', '0.1 %']);
});

test('a choice whose board has no resistor of the group is not judged, and nothing is in runs that were cut short', () => {
	const star = judged('star', [100, 100, 100], [100, 100, 100]);
	expect(star.judged.halfBus).toEqual([null, null, null]);
	expect(names(star.held[0]?.virtualNeutral ?? [])).toHaveLength(3);
	const short = judged('all', [100, 100, 100], [100, 100, 100], false);
	expect(short.judged.virtualNeutral).toEqual([null, null, null]);
	expect(short.held[0]?.halfBus ?? []).toEqual([]);
});

test('every scenario is run once: nine cases of three grades, and exact resistors, share what has the same values', () => {
	const plan = gradePlan(scenario, 'busDivider', offered('1 %, 0.5 %, 0.25 %'));
	// in E192 and E96 48.7 kΩ stays, 4.7 kΩ stays in E192 alone: its nominals without tolerance are the board with exact resistors
	const [tightest, middle] = plan.gradePlaces;
	expect(tightest?.nominals).toBe(plan.exactPlace);
	expect(middle?.nominals).toBe(plan.exactPlace);
	expect(tightest?.tolerance).toBe(tightest?.both);
	expect(plan.scenarios).toHaveLength(1 + 2 + 3);
	expect(new Set(plan.scenarios.map((one) => JSON.stringify(one))).size).toBe(plan.scenarios.length);
});

test('mixes are priced by the resistors on each board, cheapest first: 6 · 1 + 2 · 3 = 12 where the bus divider alone is better', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 1 %', [1, 3]));
	expect(plan.isMixed).toBe(true);
	const figures = plan.scenarios.map(() => madeUpFigures(100, 100));
	const { searched, candidates } = judgeGrades(plan, figures, true);
	const list = searched.halfBus.map(({ mix }) => [
		mix.price,
		...mix.grades.map(({ group, grade }) => `${group} ${grade.name}`),
	]);
	expect(list).toEqual([
		[8, 'divider 5 %', 'busDivider 5 %'],
		[12, 'divider 5 %', 'busDivider 1 %'],
		[20, 'divider 1 %', 'busDivider 5 %'],
		[24, 'divider 1 %', 'busDivider 1 %'],
	]);
	expect(searched.virtualNeutral.map(({ mix }) => mix.price)).toEqual([10, 18, 22, 30]);
	expect(candidates.halfBus.map(({ price }) => price)).toEqual([8, 12, 20]);
});

test('each mix is looked up in the run that has its grades, and only mixes that hold are candidates', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 1 %', [1, 3]));
	// drives pass where the divider's top has 1 %, for half-bus, and where the star has, for the virtual neutral
	const tolerance = (place: number, id: string): number => plan.scenarios[place]?.tolerances[id]?.mismatch ?? 1;
	const figures = plan.scenarios.map((_, place) =>
		madeUpFigures(
			tolerance(place, 'sensing.divider.top') <= 0.01 ? 100 : 50,
			tolerance(place, 'sensing.virtualNeutral.star') <= 0.01 ? 100 : 50,
		),
	);
	const { candidates } = judgeGrades(plan, figures, true);
	const chosen = (choice: 'halfBus' | 'virtualNeutral') =>
		candidates[choice].map(({ grades }) => grades.map(({ grade }) => grade.name).join(', '));
	expect(chosen('halfBus')).toEqual(['1 %, 5 %', '1 %, 1 %']);
	expect(chosen('virtualNeutral')).toEqual(['5 %, 1 %', '1 %, 1 %']);
});

test('without a price, or for one group, no mix is sought', () => {
	expect(gradePlan(scenario, 'all', offered('5 %, 1 %', [1])).isMixed).toBe(false);
	expect(gradePlan(scenario, 'star', offered('5 %, 1 %', [1, 2])).isMixed).toBe(false);
});

test('loose resistors and arrays are judged apart, each with half the chance of error: 30 drives without a failure are then too few', () => {
	// success run for 90 %: 29 drives at 95 % (published), ln 0.025/ln 0.9 = 35.01 at 97.5 %
	const list = '5 %, array 1 %/0.1 %, 0.1 %, array 2 %/0.1 %';
	const decide = (text: string, ...passing: readonly number[]) => {
		const plan = gradePlan(scenario, 'all', offered(text));
		const figures: CaseFigures[] = plan.scenarios.map(() => madeUpFigures(0, 0));
		passing.forEach((passed, i) => {
			figures[plan.gradePlaces[i]?.both ?? -1] = madeUpFigures(passed, passed, passed);
		});
		const { judged: verdicts, held } = judgeGrades(plan, figures, true);
		return { names: names(plan.ladder), decisions: verdicts.halfBus.map((one) => one?.decision ?? null), held };
	};
	expect(decide('0.1 %', 30).decisions).toEqual(['holds']);
	expect(decide('array 1 %/0.1 %', 30).decisions).toEqual(['holds']);
	const both = decide(list, 36, 30, 36, 36);
	expect(both.names).toEqual(['0.1 %', '5 %', 'array 1 %/0.1 %', 'array 2 %/0.1 %']);
	expect(both.decisions).toEqual(['holds', 'undecided', 'holds', 'holds']);
	expect(both.held.map(({ halfBus }) => names(halfBus))).toEqual([['0.1 %'], ['array 2 %/0.1 %', 'array 1 %/0.1 %']]);
	expect(decide(list, 30, 36, 36, 30).decisions).toEqual(['undecided', null, 'holds', 'undecided']);
});

test('of equally dear mixes the tighter comes first, and each of three tests has a third of the chance of error', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 1 %', [1, 1]));
	const { searched } = judgeGrades(
		plan,
		plan.scenarios.map(() => madeUpFigures(100, 100)),
		true,
	);
	expect(searched.halfBus.map(({ mix }) => mix.grades.map(({ grade }) => grade.name).join(', '))).toEqual([
		'1 %, 1 %',
		'1 %, 5 %',
		'5 %, 1 %',
		'5 %, 5 %',
	]);
	expect(mixTestConfidence({ confidence: 0.94 })).toBeCloseTo(0.98, 12);
});
