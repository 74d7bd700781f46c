import { expect, test, vi } from 'vitest';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { createPageModel } from '../../src/page/model/page-model.ts';
import type { ScenarioSource } from '../../src/page/model/scenario-source.ts';
import type { Services, StudyWatch } from '../../src/page/model/services.ts';
import { createSign } from '../../src/page/model/sign/sign.ts';
import { choiceFigures, noneSeen, pointResult, studyResult } from './study-fixture.ts';

const text = (name: string): string => JSON.stringify({ name, points: [{ name: 'slow', speed: 900, torque: 0.009 }] });
const demos: ScenarioSource[] = [
	{ kind: 'demo', file: 'one.json', text: text('one') },
	{ kind: 'demo', file: 'two.json', text: text('two') },
];

/** A model over a study that ends when the test says so. */
function model(over: Partial<Services> = {}) {
	const calls: {
		watch: StudyWatch;
		units: number;
		seed: string;
		finish: (r: StudyResult) => void;
		fail: (e: Error) => void;
	}[] = [];
	const made = createPageModel({
		demos,
		read: readScenario,
		theme: () => ({
			ink: '',
			quiet: '',
			rule: '',
			paper: '',
			font: '',
			choice: { halfBus: { line: '', fill: '' }, virtualNeutral: { line: '', fill: '' } },
		}),
		now: () => 0,
		address: { read: () => '', write: () => {}, onChange: () => {} },
		preview: async () => null,
		compare: async () => null,
		pointChange: async () => null,
		drivesNear: async () => null,
		study: ({ units, seed }, watch) =>
			new Promise((resolve, fail) => {
				const finish = (result: StudyResult): void => resolve({ result, record: { ticket: `${calls.length}` } });
				calls.push({ watch, units, seed, finish, fail });
			}),
		...over,
	});
	return { made, calls };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));

test('a run goes from idle through running to done, and shows its figures', async () => {
	let clock = 1000;
	const { made, calls } = model({ now: () => clock });
	expect(made.status.value.state).toBe('idle');
	const run = made.run();
	clock = 3500;
	calls[0]?.watch.onProgress({ finished: 250, failed: 2 });
	expect(made.status.value).toEqual({
		state: 'running',
		finished: 250,
		failed: 2,
		asked: 1000,
		seconds: 2.5,
	});
	expect(made.heard.value).toBe('25\u00a0% of the drives simulated.');
	calls[0]?.finish(studyResult());
	await run;
	expect(made.status.value.state).toBe('done');
	expect(made.whichChoice.answer.value?.lead).toContain('half-bus sensing is better');
	expect(made.heard.value).toMatch(/^Finished\. /);
});

test('figures so far are shown during the run, and called that', () => {
	const { made, calls } = model();
	void made.run();
	calls[0]?.watch.onPartial(studyResult({ partial: true, units: { asked: 1000, finished: 120, failed: 0 } }));
	expect(made.whichChoice.answer.value).not.toBeNull();
	expect(made.whichChoice.reservations.value).toEqual(['Figures so far, from 120 of 1000 drives.']);
});

test('progress alone works nothing out anew but what shows it', () => {
	const { made, calls } = model();
	const sign = createSign(made);
	void made.run();
	calls[0]?.watch.onPartial(studyResult({ partial: true, units: { asked: 1000, finished: 120, failed: 0 } }));
	const seen = [made.whichChoice.answer, made.whichChoice.reservations, sign.answer].map((one) => {
		const renewed = vi.fn();
		one.subscribe(renewed);
		renewed.mockClear();
		return renewed;
	});
	calls[0]?.watch.onProgress({ finished: 130, failed: 0 });
	expect(made.status.value).toMatchObject({ finished: 130 });
	for (const renewed of seen) expect(renewed).not.toHaveBeenCalled();
	made.cancel();
	calls[0]?.watch.onPartial(studyResult({ partial: true, units: { asked: 1000, finished: 140, failed: 0 } }));
	for (const renewed of seen) expect(renewed).toHaveBeenCalled();
});

test('another operating point is shown without another run', async () => {
	const { made, calls } = model();
	const run = made.run();
	calls[0]?.finish(studyResult());
	await run;
	const before = made.whichChoice.answer.value?.lead;
	made.whichChoice.setPoint(2);
	expect(made.whichChoice.answer.value?.lead).not.toBe(before);
	expect(made.whichChoice.answer.value?.lead).toContain('neither choice');
	expect(calls).toHaveLength(1);
});

test('cancel aborts the run and shows what finished, marked as stopped', async () => {
	const { made, calls } = model();
	const run = made.run();
	made.cancel();
	expect(calls[0]?.watch.signal.aborted).toBe(true);
	calls[0]?.finish(studyResult({ partial: true, units: { asked: 1000, finished: 40, failed: 0 } }));
	await run;
	expect(made.status.value).toEqual({ state: 'idle', note: 'Stopped after 40 of 1000 drives.' });
	expect(made.whichChoice.reservations.value).toEqual(['The run was stopped: figures from 40 of 1000 drives.']);
});

test('a second run aborts the first, whose late result and failure are not shown', async () => {
	const { made, calls } = model();
	const first = made.run();
	made.setSeed('other');
	const second = made.run();
	expect(calls[0]?.watch.signal.aborted).toBe(true);
	calls[0]?.finish(studyResult({ seed: 'late' }));
	await first;
	expect(made.shown.value).toBeNull();
	calls[1]?.finish(studyResult({ seed: 'other' }));
	await second;
	expect(made.shown.value?.result.provenance.seed).toBe('other');
});

test('a study that fails says why; the figures of the one before stay', async () => {
	const { made, calls } = model();
	const first = made.run();
	calls[0]?.finish(studyResult());
	await first;
	const second = made.run();
	calls[1]?.fail(new Error('the workers could not be loaded'));
	await second;
	expect(made.status.value).toEqual({ state: 'failed', message: 'the workers could not be loaded' });
	expect(made.shown.value).not.toBeNull();
});

test('failed drives are counted beside the figures; with none finished the run has failed, with the first reason', async () => {
	const { made, calls } = model();
	const failures = [{ unit: 7, message: 'a worker died' }];
	const first = made.run();
	calls[0]?.finish(studyResult({ units: { asked: 1000, finished: 999, failed: 1 }, failures }));
	await first;
	expect(made.whichChoice.reservations.value[0]).toMatch(/^1 of 1000 drives could not be simulated/);
	const second = made.run();
	calls[1]?.finish(studyResult({ units: { asked: 1000, finished: 0, failed: 1000 }, failures }));
	await second;
	expect(made.status.value).toMatchObject({ state: 'failed', message: expect.stringContaining('a worker died') });
});

test('inputs that no longer fit the figures on show are named, and typing runs nothing', async () => {
	const { made, calls } = model();
	const run = made.run();
	calls[0]?.finish(studyResult());
	await run;
	made.setUnits('50');
	expect(made.whichChoice.reservations.value[0]).toMatch(/figures of “one”, 1000 drives, seed demo, not of the inputs/);
	made.setUnits('none');
	expect(made.request.value).toBeNull();
	await made.run();
	expect(calls).toHaveLength(1);
});

test('choosing a scenario runs it at its first point; a broken one lists its problems and runs nothing', async () => {
	const { made, calls } = model();
	made.whichChoice.setPoint(2);
	made.chooseNth(1);
	expect(made.scenario.value?.name).toBe('two');
	expect(made.whichChoice.pointIndex.value).toBe(0);
	expect(calls).toHaveLength(1);
	const broken = { name: 'mine.json', size: 20, text: async () => '{"name":"x","points":[]}' };
	await made.openFile(broken);
	expect(made.problems.value.map(({ path }) => path)).toContain('points');
	expect(calls).toHaveLength(1);
	expect(calls[0]?.watch.signal.aborted).toBe(true);
	expect(made.sources.value.map(({ title }) => title)).toEqual(['one', 'two', 'mine.json (has problems)']);
});

test('edits of a scenario that is left for another are there again when it is chosen again, and undo takes them back', async () => {
	const { made } = model();
	const own = (name: string) => made.openFile({ name: `${name}.json`, size: 90, text: async () => text(name) });
	const titles = (): readonly string[] => made.sources.value.map(({ title }) => title);
	const put = (value: string): void => {
		const row = made.inputs.rows.value.find(({ key }) => key === 'sensing.divider.top');
		if (row) made.inputs.put(row, value, 'a value');
	};
	const top = (): unknown => made.scenario.value?.values['sensing.divider.top'];
	const stated = top();
	await own('mine');
	put('33k');
	expect(top()).toBe(33_000);
	// a demo, another file, a link: none of them takes it away
	made.chooseNth(1);
	expect(top()).toBe(stated);
	await own('other');
	made.resume({ file: 'the link', base: text('sent'), text: text('sent'), units: '20', seed: 'x', point: 0 }, null, '');
	expect(titles()).toEqual(['one', 'two', 'sent', 'other', 'mine']);
	made.chooseNth(titles().indexOf('mine'));
	expect(top()).toBe(33_000);
	expect(made.inputs.changes.value).toBe(1);
	made.inputs.undo();
	expect(top()).toBe(stated);
	// read again from disk: unedited, the one before goes; edited, both stay
	await own('mine');
	expect(titles()).toEqual(['one', 'two', 'mine', 'sent', 'other']);
	put('47k');
	await own('mine');
	expect(top()).toBe(stated);
	expect(titles()).toEqual(['one', 'two', 'mine', 'mine', 'sent', 'other']);
});

test('a file that cannot be read is a message, not a crash', async () => {
	const { made } = model();
	await made.openFile({ name: 'gone.json', size: 20, text: () => Promise.reject(new Error('it was moved')) });
	expect(made.fileProblem.value).toBe('gone.json could not be read: it was moved');
});

test.each([
	['a picture', 'board.png', '\ufffdPNG\r\n\u001a', /^board\.png was not opened: it is no text in UTF-8/],
	['an empty file', 'board.json', '', /^board\.json was not opened: it is not JSON/],
	['a broken file', 'board.json', '{"name":"x",', /^board\.json was not opened: it is not JSON: line 1, column 13/],
	['a list', 'board.json', '[]', /^board\.json was not opened: it is JSON, but no object with a name and points\.$/],
])('%s is refused, and takes no edits and no run away', async (_what, name, content, words) => {
	const { made, calls } = model();
	await made.openFile({ name: 'own.json', size: 90, text: async () => text('own') });
	const row = made.inputs.rows.value.find(({ key }) => key === 'sensing.divider.top');
	if (row) made.inputs.put(row, '33k', 'a value');
	await settled();
	const before = made.work.value;
	const wrong = { name, size: 20, text: async () => content };
	for (const open of [made.openFile, (file: typeof wrong) => made.dropFiles([file], '')]) await open(wrong);
	expect(made.fileProblem.value).toMatch(words);
	expect(made.work.value).toEqual(before);
	expect(made.inputs.changes.value).toBe(1);
	expect(made.sources.value.map(({ title }) => title)).toEqual(['one', 'two', 'own']);
	expect(calls.at(-1)?.watch.signal.aborted).toBe(false);
	await made.openFile({ name: 'other.json', size: 90, text: async () => text('other') });
	expect(made.fileProblem.value).toBe('');
});

test('why a file or link was not taken is told until another view is opened, an input edited or a run asked for', () => {
	const { made } = model();
	made.fileProblem.value = 'The link could not be opened.';
	made.route.refine({ point: '1' });
	expect(made.fileProblem.value).toBe('The link could not be opened.');
	made.route.go('grades');
	expect(made.fileProblem.value).toBe('');
	made.fileProblem.value = 'The link could not be opened.';
	void made.follow();
	expect(made.fileProblem.value).toBe('The link could not be opened.');
	void made.run();
	expect(made.fileProblem.value).toBe('');
	made.fileProblem.value = 'The link could not be opened.';
	const [row] = made.inputs.rows.value;
	if (row) made.inputs.type(row, 'value', '3');
	expect(made.fileProblem.value).toBe('');
});

test('a list of values measures the row it is dropped on; beside the rows it is told of, whichever was edited last', async () => {
	const { made } = model();
	const csv = { name: 'bench.csv', size: 20, text: async () => '22k\n22.1k\n21.9k\n' };
	const measured = (key: string) => made.inputs.rows.value.find((row) => row.key === key)?.measured;
	made.inputs.focus('sensing.divider.top');
	await made.dropFiles([csv], '');
	expect(measured('sensing.divider.top')).toBe(0);
	expect(made.fileProblem.value).toBe('bench.csv is a list of values: drop it on the row of the part it measures.');
	await made.dropFiles([csv], 'sensing.divider.top');
	expect(measured('sensing.divider.top')).toBe(3);
	expect(made.fileProblem.value).toBe('');
});

test('of several files dropped together none is opened, and that is told', async () => {
	const { made, calls } = model();
	const asked = calls.length;
	const file = (name: string) => ({ name, size: 90, text: async () => text(name) });
	await made.dropFiles([file('one.json'), file('two.json')], '');
	expect(made.fileProblem.value).toBe('2 files were dropped, and one at a time is taken: none was opened.');
	expect(calls.length).toBe(asked);
	expect(made.sources.value.map(({ title }) => title)).toEqual(['one', 'two']);
	await made.dropFiles([file('own')], '');
	expect(made.fileProblem.value).toBe('');
	expect(made.sources.value).toHaveLength(3);
});

test('the wait for the answer is not interrupted by a listener per digit: a run is heard five times at most', async () => {
	const { made, calls } = model();
	const heard = vi.fn();
	made.heard.subscribe(heard);
	const run = made.run();
	for (let finished = 0; finished <= 1000; finished += 5) calls[0]?.watch.onProgress({ finished, failed: 0 });
	calls[0]?.finish(studyResult());
	await run;
	await settled();
	// '', started, 25, 50, 75, 100 %, finished
	expect(heard.mock.calls.length).toBeLessThanOrEqual(7);
});

test('a drive that lost lock has no figure in degrees, and a rate without an event has a bound on drives', async () => {
	const { made, calls } = model();
	const lost = choiceFigures(0, 1, {
		unitError: {
			median: Number.POSITIVE_INFINITY,
			q95: Number.POSITIVE_INFINITY,
			medianInterval: null,
			q95Interval: null,
		},
		rates: { early: noneSeen, late: noneSeen, missed: noneSeen },
	});
	const run = made.run();
	calls[0]?.finish({
		...studyResult(),
		points: [pointResult('slow', 900, { halfBus: lost, virtualNeutral: choiceFigures(0, 1) }, 'virtualNeutral')],
	});
	await run;
	const answer = made.whichChoice.answer.value;
	expect(answer?.figures[0]?.rows[0]?.figures.halfBus).toEqual({
		main: 'lock lost',
		detail: 'too few drives',
		was: '',
	});
	expect(answer?.rates[0]?.rows[0]).toMatchObject({
		counted: { seen: '0', rate: '–', interval: expect.stringMatching(/^≤ 0\.4.% of drives$/) },
		computed: { seen: '', rate: expect.stringMatching(/^[\d.]+\s×\s10⁻/) },
	});
});
