import { beforeAll, expect, test, vi } from 'vitest';
import { runGradesInPool } from '../../src/host/run-grades.ts';
import { createGrades, type GradesModel } from '../../src/page/model/grades/grades.ts';
import { createPageModel, type PageModel } from '../../src/page/model/page-model.ts';
import { gradeScenarioText } from '../grades/grade-scenario.ts';
import { engineServices } from './engine-services.ts';
import { askedHere } from './long-results.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let model: PageModel;
let grades: GradesModel;
const answered = () => {
	const answer = grades.answer.value;
	if (!answer) throw new Error('no answer');
	return answer;
};

beforeAll(async () => {
	model = createPageModel(engineServices(gradeScenarioText()));
	model.setUnits('12');
	await model.run();
	grades = createGrades(model, askedHere(runGradesInPool));
	grades.gradesTyped.value = '20 %, 1 %, 0.1 %';
	grades.unitsTyped.value = '24';
	await grades.question.ask();
});

test('what a run comes to is told before: 3 grades with 3 effects each and exact resistors are at most 10 runs', () => {
	expect(grades.cost.value).toMatch(/^(7|8|9|10) runs of at most 24 drives, and fresh ones to confirm what holds$/);
});

test('the answer is one sentence with the grade that is enough for each choice and its confidence', () => {
	expect(answered().headline).toMatch(
		/^Of the sensing resistors, .* is enough with half-bus.* virtual neutral \(enough: at least 80\u00a0% of drives pass, with 95\u00a0% confidence\)\.$/,
	);
	const held = answered().choices.map(({ rows }) => rows.filter(({ decision }) => decision === 'holds').length);
	expect(Math.max(...held)).toBeGreaterThan(0);
});

test('the table has exact resistors and each grade, its limits and verdict, and no price where none was given', () => {
	const rows = answered().choices[0]?.rows ?? [];
	expect(rows.map(({ name }) => name)).toEqual(['exact resistors', '0.1 %', '1 %', '20 %']);
	expect(rows.at(-1)?.verdict).toMatch(/^(fails|undecided|not judged)$/);
	expect(rows[1]?.pass.detail).toMatch(/^\d.*%\s…\s\d.*%$/);
	expect(rows.every(({ price }) => price === '')).toBe(true);
	expect(rows[1]?.effects.map(({ effect }) => effect)).toEqual([
		'exact',
		'nominal values alone',
		'tolerance alone',
		'both',
	]);
	expect(answered().isPriced).toBe(false);
});

test('the pictures are told in words with every grade, and the limit stands in the specification', () => {
	const { errors, shortfalls } = answered().pictures ?? {};
	expect(errors?.describes).toMatch(/against the limit of 6°\. half-bus: 0\.1 % \d/);
	expect(JSON.stringify(errors?.spec)).toContain('limit 6°');
	expect(JSON.stringify(shortfalls?.spec)).toContain('20\u00a0% allowed');
});

test('what is wrong with the lists is told beside each, and nothing can be asked meanwhile', () => {
	grades.gradesTyped.value = '1 %, 40 %';
	grades.pricesTyped.value = '1, dear';
	expect(grades.gradesProblem.value).toMatch(/^“40 %” .*at most 20 %/);
	expect(grades.pricesProblem.value).toMatch(/“dear” must be a price/);
	expect(grades.question.request.value).toBeNull();
	expect(grades.question.isStale.value).toBe(true);
	grades.gradesTyped.value = '20 %, 1 %, 0.1 %';
	grades.pricesTyped.value = '';
	expect(grades.question.isStale.value).toBe(false);
});

test('with prices the cheapest mix is sought; of the star alone half-bus has no resistor and no row', async () => {
	grades.pricesTyped.value = '1, 2, 9';
	await grades.question.ask();
	expect(answered().choices[0]?.mixes?.counted).toMatch(/^\d of 9 mixes were shown to hold in the search$/);
	expect(answered().choices[0]?.rows[1]?.price).not.toBe('');
	grades.pricesTyped.value = '';
	grades.group.value = 'star';
	await grades.question.ask();
	expect(answered().choices[0]?.rows).toEqual([]);
	expect(answered().choices[0]?.sentences[0]).toMatch(/^Half-bus: no resistor of the star is on its board/);
	expect(answered().headline).toMatch(/^Of the star, \S+ % .*with virtual neutral \(enough/);
	grades.group.value = 'all';
});

test('against a pinned baseline each figure tells what it was, and the answer what was enough', async () => {
	model.against.pin();
	const row = model.inputs.rows.value.find(({ key }) => key === 'sensing.comparator.offset');
	if (row) model.inputs.type(row, 'mismatch', '20 mV');
	await grades.question.ask();
	expect(answered().changed?.lead).toMatch(/^Since the baseline: half-bus .* as before; virtual neutral .*\.$/);
	expect(answered().changed?.basis).toMatch(/^The grade that is enough, on the same drives; /);
	expect(answered().choices[0]?.rows[1]?.oneInTwenty).toMatchObject({ was: expect.stringMatching(/^was \d/) });
	expect(JSON.stringify(answered().pictures?.errors.spec.datasets)).toContain('"ghost"');
});
