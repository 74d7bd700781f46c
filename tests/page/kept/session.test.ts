import { signal } from '@preact/signals';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { scenarioDigest } from '../../../shared/scenario/digest.ts';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import { version } from '../../../shared/study/version.ts';
import type { Baseline } from '../../../src/page/model/baseline.ts';
import type { KeptWork } from '../../../src/page/model/kept/kept-work.ts';
import { linkTo } from '../../../src/page/model/kept/scenario-link.ts';
import { beginSession } from '../../../src/page/model/kept/session.ts';
import { createRoute } from '../../../src/page/model/route.ts';
import type { Shown } from '../../../src/page/model/services.ts';
import { studyResult } from '../study-fixture.ts';
import { demoText, memoryStore, work } from './kept-fixture.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }));
afterEach(() => void vi.useRealTimers());

/** A page that notes what is done to it. */
function page(hash = '') {
	const resumed: { work: KeptWork; result: StudyResult | null }[] = [];
	const adopted: Baseline[] = [];
	let runs = 0;
	return {
		resumed,
		runs: () => runs,
		route: createRoute({ read: () => hash, write: () => {}, onChange: () => {} }),
		work: signal(work()),
		shown: signal<Shown | null>(null),
		state: signal('idle' as const),
		fileProblem: signal(''),
		services: { read: readScenario } as never,
		against: {
			baseline: signal<Baseline | null>(null),
			adopt: (pinned: Baseline) => void adopted.push(pinned),
		} as never,
		adopted,
		resume: (work: KeptWork, result: StudyResult | null) => void resumed.push({ work, result }),
		follow: async () => {
			runs += 1;
		},
	};
}
const notebook = (text: string | null) => ({
	text,
	read() {
		return this.text;
	},
	write(next: string) {
		this.text = next;
	},
});

const resultOf = async (of: KeptWork): Promise<StudyResult> => {
	const reading = readScenario(of.text);
	if (!('scenario' in reading)) throw new Error('broken demo');
	return studyResult({ scenarioDigest: await scenarioDigest(reading.scenario), version, seed: of.seed });
};

test('a first visit runs the first demo', async () => {
	const made = page();
	await beginSession(made, notebook(null), async () => memoryStore());
	expect(made.runs()).toBe(1);
	expect(made.resumed).toEqual([]);
});

test('what was left is taken up with its figures where they are its own, without them where they are not', async () => {
	const left = work({ seed: 'left', point: 2 });
	const store = memoryStore();
	await store.setLast({ work: left, result: await resultOf(left) });
	const again = page();
	await beginSession(again, notebook(JSON.stringify(left)), async () => store);
	expect(again.resumed).toHaveLength(1);
	expect(again.resumed[0]).toMatchObject({ work: left, result: { provenance: { seed: 'left' } } });
	expect(again.runs()).toBe(0);
	for (const other of [
		work({ seed: 'other' }),
		work({ ...left, units: '2000' }),
		work({ ...left, text: demoText('pump-12v.json') }),
	]) {
		const edited = page();
		await beginSession(edited, notebook(JSON.stringify(other)), async () => store);
		expect(edited.resumed).toEqual([{ work: other, result: null }]);
	}
});

test.each([['{'], ['[]'], ['{"file":"x"}'], ['null'], [JSON.stringify({ ...work(), point: 'two' })]])(
	'the note %s is passed over',
	async (note) => {
		const made = page();
		await beginSession(made, notebook(note), async () => memoryStore());
		expect([made.runs(), made.resumed.length]).toEqual([1, 0]);
	},
);

test('a notebook and a store that throw leave a page that runs', async () => {
	const made = page();
	const closed = {
		read: () => {
			throw new Error('not allowed');
		},
		write: () => {
			throw new Error('not allowed');
		},
	};
	await beginSession(made, closed, () => Promise.reject(new Error('not allowed')));
	made.work.value = work({ seed: 'b' });
	await vi.advanceTimersByTimeAsync(1000);
	expect(made.runs()).toBe(1);
});

test('a link goes before what was left, and leaves the address', async () => {
	const link = await linkTo({ scenario: demoText('pump-12v.json'), units: '50', seed: 'sent' });
	const made = page(link);
	await beginSession(made, notebook(JSON.stringify(work())), async () => memoryStore());
	expect(made.resumed).toHaveLength(1);
	expect(made.resumed[0]?.work).toMatchObject({ file: 'the link', units: '50', seed: 'sent', point: 0 });
	expect(made.route.details.value).toEqual({});
});

test('a broken link is told of, and the page runs', async () => {
	const made = page('#which-choice?work=AAAA');
	await beginSession(made, notebook(null), async () => memoryStore());
	expect(made.fileProblem.value).toMatch(/^The link could not be opened: it cannot be unpacked/);
	expect(made.runs()).toBe(1);
});

test.each([
	['AAAA', /: it cannot be unpacked: it may have been cut or changed on its way\.$/],
	['a b', /: it holds characters that no link of this page has: it may have been cut or changed on its way\.$/],
	['A'.repeat(100_001), /: it is too long: 98 kB, at most 100 kB are read\.$/],
])('the words on a broken link end with one mark', async (code, words) => {
	const made = page(`#which-choice?work=${code}`);
	await beginSession(made, notebook(null), async () => memoryStore());
	expect(made.fileProblem.value).toMatch(words);
});

test('what is asked is noted a moment later, whole results are kept once, partial ones never', async () => {
	const made = page();
	const book = notebook(null);
	const store = memoryStore();
	await beginSession(made, book, async () => store);
	made.work.value = work({ seed: 'typed' });
	expect(book.text).toBeNull();
	await vi.advanceTimersByTimeAsync(400);
	expect(JSON.parse(book.text ?? '')).toEqual(work({ seed: 'typed' }));
	const reading = readScenario(work().text);
	if (!('scenario' in reading)) throw new Error('broken demo');
	const shown = { scenario: reading.scenario, units: 1000, seed: 'typed' };
	made.shown.value = { ...shown, result: studyResult({ partial: true }) };
	await vi.advanceTimersByTimeAsync(10);
	expect(store.lastKept).toBeUndefined();
	made.shown.value = { ...shown, result: studyResult() };
	await vi.advanceTimersByTimeAsync(10);
	expect(store.lastKept).toMatchObject({ work: { seed: 'typed' } });
});

test('what was pinned is pinned again with its figures; of another version or broken it is not', async () => {
	const store = memoryStore();
	store.pinned = { work: work({ units: '1000' }), result: await resultOf(work()) };
	const made = page();
	await beginSession(made, notebook(null), async () => store);
	expect(made.adopted).toHaveLength(1);
	expect(made.adopted[0]?.shown).toMatchObject({ units: 1000, seed: 'demo' });
	expect(made.adopted[0]?.document).toMatchObject({ name: '24 V fan' });
	for (const wrong of [{ work: work({ seed: 'other' }), result: await resultOf(work()) }, { work: 7 }, 'none']) {
		store.pinned = wrong;
		const other = page();
		await beginSession(other, notebook(null), async () => store);
		expect(other.adopted).toEqual([]);
	}
});
