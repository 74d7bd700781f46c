import { signal } from '@preact/signals';
import { expect, test, vi } from 'vitest';
import { scenarioDigest } from '../../../shared/scenario/digest.ts';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import { version } from '../../../shared/study/version.ts';
import { createKept } from '../../../src/page/model/kept/kept.ts';
import type { KeptStore } from '../../../src/page/model/kept/kept-store.ts';
import type { RunStatus } from '../../../src/page/model/run-status.ts';
import type { Shown, StudyRequest } from '../../../src/page/model/services.ts';
import { studyResult } from '../study-fixture.ts';
import { memoryStore, record, work } from './kept-fixture.ts';

const reading = readScenario(work().text);
if (!('scenario' in reading)) throw new Error('broken demo');
const { scenario } = reading;
const asked = { scenario, units: 1000, seed: 'demo' };

function made(store: KeptStore, result = studyResult()) {
	const resume = vi.fn();
	const shown = signal<Shown | null>({ ...asked, result });
	const request = signal<StudyRequest | null>(asked);
	let ids = 0;
	const kept = createKept(
		{
			shown,
			request,
			work: signal(work()),
			state: signal<RunStatus['state']>('idle'),
			resume,
			services: { read: readScenario } as never,
		},
		store,
		{
			now: () => 1_700_000_000_000 + ids,
			newId() {
				ids += 1;
				return `id ${ids}`;
			},
		},
	);
	return { kept, resume, shown, request };
}

test('a result is kept with its name, note and inputs, the newest first', async () => {
	const store = memoryStore();
	const { kept } = made(store);
	kept.typeNote(' before ');
	await kept.keep();
	kept.typeName('Second');
	await kept.keep();
	expect(kept.records.value.map(({ name, note }) => [name, note])).toEqual([
		['Second', ''],
		[expect.stringMatching(/^24 V fan, 1000 drives$/), 'before'],
	]);
	expect(store.kept[0]).toMatchObject({ work: { seed: 'demo', file: 'fan-24v.json' } });
	expect(kept.said.value).toBe('Kept as “Second”.');
});

test('figures that are not whole or not of the inputs as they are cannot be kept, and why is told', async () => {
	const store = memoryStore();
	const { kept, shown, request } = made(store, studyResult({ partial: true }));
	expect(kept.obstacle.value).toBe('The run was stopped: only whole results are kept.');
	shown.value = { ...asked, result: studyResult() };
	request.value = { ...asked, seed: 'other' };
	expect(kept.obstacle.value).toMatch(/not those of the inputs/);
	shown.value = null;
	expect(kept.obstacle.value).toBe('There are no figures yet.');
	await kept.keep();
	expect(store.kept).toEqual([]);
});

test('a kept result opens with its figures only where they are this version’s and of these inputs', async () => {
	const own = studyResult({ scenarioDigest: await scenarioDigest(scenario), version });
	const { kept, resume } = made(memoryStore());
	await kept.open(record({ result: own }));
	expect(resume).toHaveBeenLastCalledWith(work(), own, 'Figures kept as “Before”.');
	await kept.open(record({ result: { ...own, provenance: { ...own.provenance, version: '0.0.0' } } }));
	expect(resume.mock.lastCall?.[1]).toBeNull();
	expect(kept.said.value).toMatch(/worked out anew/);
	await kept.open(record({ result: own, work: work({ seed: 'another' }) }));
	expect(resume.mock.lastCall?.[1]).toBeNull();
});

test('two are laid side by side; a third takes the place of the first', async () => {
	const { kept } = made(memoryStore(['a', 'b', 'c'].map((id) => record({ id, name: id }))));
	await vi.waitFor(() => expect(kept.records.value).toHaveLength(3));
	for (const id of ['a', 'b', 'c']) kept.choose(id, true);
	expect(kept.comparison.value).toMatchObject({ first: { name: 'b' }, second: { name: 'c' } });
	kept.choose('b', false);
	expect(kept.comparison.value).toBeNull();
});

test('renaming keeps the rest, removing takes out one', async () => {
	const store = memoryStore([record({ id: 'a' }), record({ id: 'b', name: 'Other' })]);
	const { kept } = made(store);
	await vi.waitFor(() => expect(kept.records.value).toHaveLength(2));
	const [first] = kept.records.value;
	if (!first) throw new Error('nothing kept');
	await kept.rename(first, { name: '  ', note: 'new' });
	expect(kept.records.value.find(({ id }) => id === first.id)).toEqual({ ...first, note: 'new' });
	await kept.rename(first, { name: ' Newer ', note: '' });
	expect(kept.records.value.find(({ id }) => id === first.id)).toMatchObject({ name: 'Newer', note: '' });
	await kept.remove(first.id);
	expect(kept.records.value.map(({ id }) => id)).not.toContain(first.id);
});

test('a store that fails is told of, and what could be read stays', async () => {
	const failing = { ...memoryStore([record()]), put: () => Promise.reject(new Error('disk full')) };
	const { kept } = made(failing);
	await vi.waitFor(() => expect(kept.records.value).toHaveLength(1));
	await kept.keep();
	expect(kept.problem.value).toBe('The result could not be kept: disk full');
	expect(kept.records.value).toHaveLength(1);
});
