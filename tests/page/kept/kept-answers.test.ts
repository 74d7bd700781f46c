import seedrandom from 'seedrandom';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { version } from '../../../shared/study/version.ts';
import { runContestInPool } from '../../../src/host/run-contest.ts';
import { runEnvelopeInPool } from '../../../src/host/run-envelope.ts';
import { runGradesInPool } from '../../../src/host/run-grades.ts';
import { runRangeInPool } from '../../../src/host/run-range.ts';
import { runSpreadInPool } from '../../../src/host/run-spread.ts';
import { createGrades } from '../../../src/page/model/grades/grades.ts';
import { type KeptAnswer, keptAnswers, mostAnswers } from '../../../src/page/model/kept/kept-answers.ts';
import type { KeptStore } from '../../../src/page/model/kept/kept-store.ts';
import { createContest } from '../../../src/page/model/limits/contest.ts';
import { createEnvelope } from '../../../src/page/model/limits/envelope.ts';
import { createRange } from '../../../src/page/model/limits/range.ts';
import { createOrigins } from '../../../src/page/model/origins/origins.ts';
import { createPageModel, type PageModel } from '../../../src/page/model/page-model.ts';
import { gradeScenarioText } from '../../grades/grade-scenario.ts';
import { engineServices } from '../engine-services.ts';
import { askedHere } from '../long-results.ts';
import { memoryStore } from './kept-fixture.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 2));

/** A longer question of a page: what it was asked, its run, and the answer as its view has it. */
interface Asking {
	readonly question: {
		readonly ask: () => Promise<void>;
		readonly setOpen: (open: boolean) => void;
		readonly status: { readonly value: unknown };
	};
	readonly answer: { readonly value: unknown };
}
type Run = () => Promise<never>;

/** Each with few drives; `run` in place of the engine's where it is given. */
const questions: Readonly<Record<string, (model: PageModel, run?: Run) => Asking>> = {
	grades(model, run: Parameters<typeof createGrades>[1] = askedHere(runGradesInPool)) {
		const grades = createGrades(model, run);
		grades.gradesTyped.value = '5 %, 1 %, array 1 %/0.1 %';
		grades.pricesTyped.value = '1, 2, 9';
		grades.unitsTyped.value = '24';
		return grades;
	},
	spread(model, run: Parameters<typeof createOrigins>[1] = askedHere(runSpreadInPool)) {
		const origins = createOrigins(model, run);
		origins.rowsTyped.value = '24';
		return origins;
	},
	range(model, run: Parameters<typeof createRange>[1] = askedHere(runRangeInPool)) {
		const range = createRange(model, run);
		range.entry.type({ from: '2000', to: '6000', steps: '3' });
		range.unitsTyped.value = '12';
		return range;
	},
	contest(model, run: Parameters<typeof createContest>[1] = askedHere(runContestInPool)) {
		const contest = createContest(model, run);
		contest.speed.type({ from: '3000', to: '6000', steps: '2' });
		contest.torque.type({ from: '0.02', to: '0.05', steps: '2' });
		contest.unitsTyped.value = '12';
		return contest;
	},
	envelope(model, run: Parameters<typeof createEnvelope>[1] = askedHere(runEnvelopeInPool)) {
		const envelope = createEnvelope(model, run);
		envelope.unitsTyped.value = '6';
		return envelope;
	},
};

async function page(store: () => Promise<KeptStore>): Promise<PageModel> {
	const model = createPageModel({ ...engineServices(gradeScenarioText()), store });
	model.setUnits('6');
	await model.run();
	return model;
}

/** Opens a question on a page that was loaded again; tells how often the engine was asked. */
async function reopened(model: PageModel, create: (model: PageModel, run: Run) => Asking) {
	let calls = 0;
	const asking = create(model, () => {
		calls += 1;
		return new Promise(() => {});
	});
	asking.question.setOpen(true);
	await settled();
	return { asking, calls };
}

describe.each(Object.entries(questions))('the answer of %s', (name, create) => {
	const store = memoryStore();
	const get = async (): Promise<KeptStore> => store;
	let before: unknown;
	let again: PageModel;
	beforeAll(async () => {
		const first = create(await page(get));
		await first.question.ask();
		await settled();
		before = first.answer.value;
		again = await page(get);
	});

	test('is there again after a reload, the same in every word and figure, and the engine is not asked', async () => {
		const { asking, calls } = await reopened(again, create);
		expect(calls).toBe(0);
		expect(before).not.toBeNull();
		expect(asking.answer.value).toEqual(before);
		expect(asking.question.status.value).toEqual({
			state: 'idle',
			note: 'Figures of an earlier run of the same inputs.',
		});
	});

	test('is asked anew where the seed is another', async () => {
		const other = await page(get);
		other.setSeed('another');
		await other.run();
		expect((await reopened(other, create)).calls).toBe(1);
	});

	test('with any 300 of its places changed is either asked anew or shown without harm', async () => {
		const random = seedrandom('hostile');
		const whole = (store.answered.get(name) as readonly KeptAnswer[])[0] as KeptAnswer;
		const places = placesOf(whole.result);
		const ends = { asked: 0, shown: 0 };
		for (let i = 0; i < 300; i++) {
			const changed = structuredClone(whole);
			const place = places[Math.floor(random() * places.length)] as readonly string[];
			change(changed.result, place, hostile[Math.floor(random() * hostile.length)]);
			const model = { ...again, services: { ...again.services, store: async () => holding([changed]) } };
			const { asking, calls } = await reopened(model, create);
			const where = place.join('.');
			if (calls === 1) ends.asked += 1;
			else {
				expect(() => JSON.stringify(asking.answer.value), where).not.toThrow();
				expect(asking.answer.value, where).not.toBeNull();
				ends.shown += 1;
			}
		}
		expect(ends.asked).toBeGreaterThan(100);
		expect(ends.shown).toBeGreaterThan(0);
	});
});

describe('what is stored of a question', () => {
	const everything = (): null => null;
	const kept = (store: KeptStore) =>
		keptAnswers<{ readonly provenance: { readonly partial: boolean }; readonly of?: string }>(
			'any',
			everything,
			async () => store,
		);
	const whole = { provenance: { partial: false } };

	test('is the latest four answers, each once, of two tabs together; those of another version are let go', async () => {
		const store = memoryStore();
		store.answered.set('any', [{ version: '0.0.0', asked: 'old', result: whole }]);
		const [one, other] = [kept(store), kept(store)];
		for (const asked of ['a', 'b', 'c']) one?.keep(asked, whole);
		for (const asked of ['d', 'b', 'e']) other?.keep(asked, whole);
		await settled();
		const stored = store.answered.get('any') as readonly KeptAnswer[];
		expect(stored.map(({ asked }) => asked)).toEqual(['e', 'b', 'd', 'c']);
		expect(stored).toHaveLength(mostAnswers);
		const find = await one?.read();
		expect(['a', 'b', 'c', 'd', 'e', 'old'].filter((asked) => find?.(asked))).toEqual(['b', 'c', 'd', 'e']);
	});

	test('of another version, stopped, or nothing like an answer is passed over, and the next answer takes its place', async () => {
		for (const broken of [7, 'none', null, {}, [null, 3, [], { version }, { version, asked: 5, result: whole }]]) {
			const store = memoryStore();
			store.answered.set('any', broken);
			expect((await kept(store)?.read())?.('a')).toBeNull();
			kept(store)?.keep('a', whole);
			await settled();
			expect((await kept(store)?.read())?.('a')).toEqual(whole);
		}
		for (const passed of [
			{ version: '0.0.0', asked: 'a', result: whole },
			{ version, asked: 'a', result: { provenance: { partial: true } } },
		]) {
			expect((await kept(holding([passed]))?.read())?.('a')).toBeNull();
		}
	});

	test('cannot be read or written: nothing is found, and nothing thrown', async () => {
		const refused = keptAnswers('any', everything, () => Promise.reject(new Error('not allowed')));
		expect((await refused?.read())?.('a')).toBeNull();
		refused?.keep('a', whole);
		const full = { ...memoryStore(), changeAnswers: () => Promise.reject(new DOMException('', 'QuotaExceededError')) };
		kept(full)?.keep('a', whole);
		await settled();
	});
});

const hostile: readonly unknown[] = [
	undefined,
	null,
	'<img src=x onerror=alert(1)>',
	-1.5,
	Number.NaN,
	Infinity,
	{},
	[],
	[null],
	'toString',
];

function placesOf(value: unknown, path: readonly string[] = []): (readonly string[])[] {
	if (typeof value !== 'object' || value === null) return [];
	return Object.entries(value).flatMap(([name, member]) => [[...path, name], ...placesOf(member, [...path, name])]);
}

function change(value: unknown, [name, ...rest]: readonly string[], to: unknown): void {
	const members = value as Record<string, unknown>;
	if (rest.length > 0) change(members[name as string], rest, to);
	else members[name as string] = to;
}

const holding = (answers: unknown): KeptStore => ({ ...memoryStore(), answers: async () => answers });
