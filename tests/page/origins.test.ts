import { beforeAll, expect, test, vi } from 'vitest';
import { runSpreadInPool } from '../../src/host/run-spread.ts';
import { createOrigins, type OriginsModel } from '../../src/page/model/origins/origins.ts';
import { createPageModel, type PageModel } from '../../src/page/model/page-model.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { engineServices } from './engine-services.ts';
import { memoryStore } from './kept/kept-fixture.ts';
import { askedHere } from './long-results.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const scenarioText = smallScenarioText({ trial: { starts: 1, warmup: 6, settle: 6, measured: 12 } });
let model: PageModel;
let origins: OriginsModel;
const answered = () => {
	const answer = origins.answer.value;
	if (!answer) throw new Error('no answer');
	return answer;
};

beforeAll(async () => {
	model = createPageModel(engineServices(scenarioText));
	model.setUnits('12');
	await model.run();
	origins = createOrigins(model, askedHere(runSpreadInPool));
	origins.rowsTyped.value = '24';
	await origins.question.ask();
});

test('the answer names the largest origin of either choice with its share and interval, at the point on show', () => {
	expect(answered().headline).toMatch(
		/^At fast half-bus spreads by \d\.\d\d°.*; virtual neutral spreads by \d\.\d\d°, .* \(variance, 95\u00a0% intervals\)\.$/,
	);
	expect(origins.cost.value).toMatch(/^\d+ drives at fast$/);
});

test('the tables give each share alone and with interactions; every group is in a row or named below', () => {
	for (const { shares, notes, sectors } of answered().choices) {
		expect(shares.length).toBeGreaterThan(2);
		for (const { alone, together } of shares) expect(alone.detail + together.detail).toMatch(/%\s….*%\s…/);
		expect(notes.join(' ')).toMatch(/Without spread of their own here: /);
		expect(sectors).toHaveLength(6);
	}
});

test('the classical budgets stand beside what drawn drives do, the worst sector marked, with why they differ', () => {
	const { budgets, choices } = answered();
	expect(budgets?.why).toMatch(/extreme value puts all \d+ sources/);
	expect(choices[0]?.budgets?.sectors.filter(({ isWorst }) => isWorst)).toHaveLength(1);
	expect(choices[0]?.budgets?.sectors[0]?.cells?.summed).toMatch(/^±\d/);
	expect(budgets?.picture?.describes).toMatch(/^The budgets side by side at fast\. /);
	expect(answered().rests.map(([term]) => term)).toEqual(
		expect.arrayContaining(['Shares', 'Budgets: drives', 'Budgets: extreme value']),
	);
});

test('another point is asked about at once while the view is open, and its first answer is found again', async () => {
	origins.question.setOpen(true);
	const first = answered().headline;
	model.whichChoice.setPoint(1);
	await vi.waitFor(() => expect(origins.answer.value?.headline).toMatch(/^At faster /), 20_000);
	model.whichChoice.setPoint(0);
	expect(answered().headline).toBe(first);
	origins.question.setOpen(false);
});

test('fewer than 20 rows share nothing out and are not asked for', () => {
	origins.rowsTyped.value = '19';
	expect('problem' in origins.rows.value && origins.rows.value.problem).toMatch(/whole number from 20 to 20\s000\.$/);
	expect(origins.question.request.value).toBeNull();
	origins.rowsTyped.value = '24';
});

test('a star of 20 % instead of 1 % drives most of the virtual neutral, against what it did in the pinned baseline, and the spread is told before and after with the limits of its change', async () => {
	await vi.waitFor(() => expect(model.against.canPin.value).toBe(true));
	model.against.pin();
	origins.rowsTyped.value = '48';
	const row = model.inputs.rows.value.find(({ key }) => key === 'sensing.virtualNeutral.star');
	if (row) model.inputs.type(row, 'mismatch', '20 %');
	await origins.question.ask();
	const star = answered().choices[1]?.shares.find(({ name }) => name === 'star resistors');
	const before = Number.parseInt(star?.alone.was.replace('was ', '') ?? '', 10);
	expect(Number.parseInt(star?.alone.main ?? '', 10)).toBeGreaterThan(Math.max(60, before));
	const { lead = '', basis = '' } = answered().changed ?? {};
	expect(lead.replaceAll('\u00a0', ' ')).toMatch(
		/^Since the baseline: half-bus \d\.\d\d° as before; virtual neutral \d\.\d\d° →\s\d\.\d\d°, \+\d\.\d\d° ± \d\.\d\d°\.$/,
	);
	expect(basis.replaceAll('\u00a0', ' ')).toBe(
		'Standard deviation of the mean angle error, on the same draws; ± to the farther limit of the 95 % interval.',
	);
	expect(answered().rests).toContainEqual(['Change of the spread', expect.stringContaining('Zou and Donner')]);
});

test('after a reload at another point its answer is shown without asking', async () => {
	const store = memoryStore();
	const services = { ...engineServices(scenarioText), store: async () => store };
	const first = createPageModel(services);
	await first.run();
	first.whichChoice.setPoint(1);
	const asked = createOrigins(first, askedHere(runSpreadInPool));
	asked.rowsTyped.value = '24';
	await asked.question.ask();
	const left = first.work.value;
	const result = first.shown.value?.result ?? null;

	const again = createPageModel(services);
	let calls = 0;
	const found = createOrigins(again, () => {
		calls += 1;
		return new Promise(() => {});
	});
	found.rowsTyped.value = '24';
	found.question.setOpen(true);
	// what was stored may be read before the page has its inputs
	await new Promise((resolve) => setTimeout(resolve, 5));
	again.resume(left, result, 'as it was left');
	await new Promise((resolve) => setTimeout(resolve, 5));
	expect(calls).toBe(0);
	expect(found.answer.value).toEqual(asked.answer.value);
});

test('workers that were lost while shares or budgets were worked out are told of, each once', async () => {
	const reasons = ['out of memory', 'exit code 3'];
	const losing = createOrigins(model, (asked, watch) =>
		runSpreadInPool({ ...asked, ...watch }, { ...inlinePool(), takeLosses: () => reasons.splice(0, 1) }),
	);
	losing.rowsTyped.value = '24';
	await losing.question.ask();
	const { reservations } = losing.answer.value ?? expect.unreachable();
	expect(reservations.filter((words) => words.startsWith('A worker was lost'))).toEqual([
		'A worker was lost (out of memory); what it had begun was run again on a fresh one.',
		'A worker was lost (exit code 3); what it had begun was run again on a fresh one.',
	]);
	expect(new Set(reservations).size).toBe(reservations.length);
});
