import { expect, test } from 'vitest';
import { type GradePlan, gradePlan } from '../../shared/grades/grade-plan.ts';
import { decidedRuns, drivesOfEffects, settledRuns } from '../../shared/grades/settled-runs.ts';
import type { Decision } from '../../shared/statistics/verdict.ts';
import { looksOfRuns } from '../../shared/study/looks.ts';
import { type StudyColumns, studyFor, unitStates } from '../../shared/study/merge.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { offered } from './grade-scenario.ts';

// of 1000 drives 962 must pass to show 95 % with 95 % confidence, and 937 or fewer show that it fails (exact binomial)
const scenario = smallScenario({ requirement: { share: 0.95, angleLimit: 5, crossingsPerHour: 1e9 } });

/** Drives of which so many do not pass with half-bus and with the virtual neutral. */
function drives(units: number, halfBus: number, virtualNeutral: number): StudyColumns {
	const study = studyFor(scenario, units);
	study.states.fill(unitStates.finished);
	for (let unit = 0; unit < units; unit += 1) {
		for (let point = 0; point < study.points; point += 1) {
			const cell = (unit * study.points + point) * 2;
			study.columns.judgedError[cell] = unit < halfBus ? 9 : 1;
			study.columns.judgedError[cell + 1] = unit < virtualNeutral ? 9 : 1;
			study.columns.sectors[cell] = study.columns.sectors[cell + 1] = 1;
		}
	}
	return study;
}

/** Each grade's own run, tightest first, with its drives that do not pass; all others pass. */
function ownRuns(plan: GradePlan, units: number, failing: readonly (readonly [number, number])[]) {
	const runs = new Map([[plan.exactPlace, drives(units, 0, 0)]]);
	failing.forEach((one, grade) => {
		runs.set(plan.gradePlaces[grade]?.both as number, drives(units, ...one));
	});
	return runs;
}

/** Which of them end at 100 of 1000 drives. */
const endedOf = (plan: GradePlan, failing: Parameters<typeof ownRuns>[2]): readonly number[] =>
	settledRuns(plan, 1000)(ownRuns(plan, 100, failing));

test('looks at 100, 200, 400 and 800 drives, and none before so few as 100', () => {
	expect(looksOfRuns(1000)).toEqual([100, 200, 400, 800, 1000]);
	expect(looksOfRuns(100)).toEqual([100]);
	expect(looksOfRuns(40)).toEqual([40]);
});

test('a grade ends where it fails for certain with both choices, one that may yet be undecided or hold goes on, exact resistors always', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 2 %, 1 %, 0.1 %'));
	const [tight, one, two, five] = plan.gradePlaces.map(({ both }) => both);
	const ended = settledRuns(plan, 1000);
	// 62 failing of 1000 are undecided, 63 are not
	expect(
		ended(
			ownRuns(plan, 200, [
				[0, 0],
				[0, 0],
				[62, 63],
				[200, 200],
			]),
		),
	).toEqual([five]);
	expect(
		ended(
			ownRuns(plan, 200, [
				[0, 0],
				[0, 0],
				[63, 63],
				[63, 63],
			]),
		),
	).toEqual([two, five]);
	expect(
		ended(
			ownRuns(plan, 200, [
				[0, 0],
				[62, 0],
				[0, 0],
				[0, 0],
			]),
		),
	).toEqual([]);
	expect([tight, one].every((place) => place !== undefined)).toBe(true);
});

test('after a grade that can no longer hold, looser ones have nothing to be asked, but for the other choice', () => {
	const plan = gradePlan(scenario, 'all', offered('2 %, 1 %, 0.1 %'));
	const [, one, two] = plan.gradePlaces.map(({ both }) => both);
	// 39 failing leave at most 961 of 1000
	expect(
		endedOf(plan, [
			[0, 0],
			[39, 39],
			[0, 0],
		]),
	).toEqual([two]);
	expect(
		endedOf(plan, [
			[0, 0],
			[39, 38],
			[0, 0],
		]),
	).toEqual([]);
	expect(
		endedOf(plan, [
			[39, 39],
			[0, 0],
			[0, 0],
		]),
	).toEqual([one, two]);
	// no board with half-bus has the star's resistors: its drives decide nothing
	const star = gradePlan(scenario, 'star', offered('2 %, 1 %, 0.1 %'));
	const [, , loosest] = star.gradePlaces.map(({ both }) => both);
	expect(
		endedOf(star, [
			[0, 0],
			[0, 39],
			[0, 0],
		]),
	).toEqual([loosest]);
});

test('what ended is remembered: at the next look it still stands in the way of looser grades', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 1 %, 0.1 %'));
	const ended = settledRuns(plan, 1000);
	const [, middle, loosest] = plan.gradePlaces.map(({ both }) => both);
	expect(
		ended(
			ownRuns(plan, 100, [
				[0, 0],
				[63, 63],
				[0, 0],
			]),
		),
	).toEqual([middle, loosest]);
	const later = ownRuns(plan, 200, [[0, 0]]);
	expect(ended(later)).toEqual([]);
});

test('mixes go on while they may hold; a mix that cannot ends though it may be undecided', () => {
	const plan = gradePlan(scenario, 'all', offered('1 %, 0.1 %', [1, 2]));
	const runs = new Map(plan.scenarios.map((_, place) => [place, drives(100, 0, 0)]));
	const [mixed] = plan.mixPlaces.filter((place) => !plan.gradePlaces.some(({ both }) => both === place));
	for (const [failing, isEnded] of [
		[38, false],
		[39, true],
	] as const) {
		runs.set(mixed as number, drives(100, failing, failing));
		expect(settledRuns(plan, 1000)(runs).includes(mixed as number)).toBe(isEnded);
	}
});

test('a test on fresh drives ends once it is decided for each choice that it is for', () => {
	const both = { scenario, choices: ['halfBus', 'virtualNeutral'] as const };
	const one = { scenario, choices: ['halfBus'] as const };
	const requirement = { share: 0.95, confidence: 0.95 };
	const runs = new Map([
		[0, drives(100, 63, 0)],
		[1, drives(100, 63, 0)],
	]);
	expect(decidedRuns([both, one], 1000, requirement)(runs)).toEqual([1]);
	expect(decidedRuns([both, one], 100, requirement)(runs)).toEqual([0, 1]);
});

const judged = (...decisions: readonly (Decision | null)[]) =>
	decisions.map((decision) => (decision === null ? null : { decision }));

test('effects apart take the drives of the grade that the sentence tells of, others 200 at most; shared ones the more of both', () => {
	const plan = gradePlan(scenario, 'all', offered('5 %, 2 %, 1 %, 0.1 %'));
	const of = (grade: number, effect: 'nominals' | 'tolerance') => plan.gradePlaces[grade]?.[effect] as number;
	const found = drivesOfEffects(plan, [1000, 1000, 400, 100], {
		halfBus: judged('holds', 'holds', 'fails', null),
		virtualNeutral: judged('holds', 'undecided', null, null),
	});
	expect([0, 1, 2, 3].map((grade) => found.get(of(grade, 'tolerance')))).toEqual([200, 1000, 400, 100]);
	const nothing = drivesOfEffects(plan, [1000, 1000, 1000, 1000], {
		halfBus: judged('fails', null, null, null),
		virtualNeutral: judged('holds', 'holds', 'holds', 'holds'),
	});
	expect(new Set(nothing.values())).toEqual(new Set([200]));
});

test('where all loose grades hold, no sentence tells of an array as the next looser one', () => {
	const plan = gradePlan(scenario, 'all', offered('1 %, 5 %, array 1 %/0.1 %, array 5 %/0.5 %'));
	const found = drivesOfEffects(plan, [1000, 1000, 1000, 1000], {
		halfBus: judged('holds', 'holds', 'fails', null),
		virtualNeutral: judged('holds', 'holds', 'fails', null),
	});
	expect(new Set(found.values())).toEqual(new Set([200]));
});

test('nominal values that two grades share take the drives of the grade that is told of, in whatever order the two stand', () => {
	// 48.7 kΩ and 4.7 kΩ of E192 for all three
	const plan = gradePlan(scenario, 'busDivider', offered('1 % E192, 0.5 %, 0.25 %'));
	const shared = plan.gradePlaces.map(({ nominals }) => nominals);
	expect(new Set(shared).size).toBe(1);
	const found = drivesOfEffects(plan, [1000, 1000, 1000], {
		halfBus: judged('holds', 'fails', null),
		virtualNeutral: judged(null, null, null),
	});
	expect(found.get(shared[0] as number)).toBe(1000);
});
