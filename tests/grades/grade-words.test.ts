import { expect, test } from 'vitest';
import { gradePlan } from '../../shared/grades/grade-plan.ts';
import { apartWords, earlyWords } from '../../shared/grades/grade-words.ts';
import { gradesResult } from '../../shared/grades/grades-result.ts';
import { judgeGrades } from '../../shared/grades/judge-grades.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { madeUpFigures } from './figures.ts';
import { offered } from './grade-scenario.ts';

/** Phase dividers of 1 % and 5 % at 0.7 and 0.1 each, with so many drives of each grade's own run and of its effects apart. */
function result(own: readonly [number, number], apart: number) {
	const plan = gradePlan(smallScenario(), 'divider', offered('1 %, 5 %', [0.7, 0.1]));
	const figures = plan.scenarios.map(() => madeUpFigures(apart, apart, apart));
	plan.gradePlaces.forEach(({ both }, grade) => {
		figures[both] = madeUpFigures(own[grade] as number, own[grade] as number, own[grade]);
	});
	const untried = { halfBus: [], virtualNeutral: [] };
	const judgement = judgeGrades(plan, figures, true);
	return gradesResult({
		plan,
		figures,
		judgement,
		gradeTests: judgement.held.map(() => untried),
		mixTests: untried,
		seed: 's',
		units: 400,
		scenarioDigest: '',
		resultDigest: '',
		isPartial: false,
		warnings: [],
	});
}

test('a run that ended at 100 of 400 drives is told of, one that had all 400 is not', () => {
	expect(earlyWords(result([400, 400], 400))).toBe('');
	expect(earlyWords(result([400, 100], 400))).toBe(
		'Ended early: 5 % after 100 drives; no further drive could change which grade is enough.',
	);
});

test('effects apart with fewer drives than the grade itself are told of, with as many or more they are not', () => {
	expect(apartWords(result([400, 400], 200))).toContain('200 drives at most');
	expect(apartWords(result([400, 400], 400))).toBe('');
	expect(apartWords(result([100, 100], 200))).toBe('');
});

test('six dividers at 0.7 cost 4.2, not the 4.199… that binary fractions make of it', () => {
	expect(result([400, 400], 400).grades.map(({ price }) => price?.halfBus)).toEqual([4.2, 0.6]);
});
