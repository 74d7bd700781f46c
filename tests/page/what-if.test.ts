import { beforeEach, expect, test, vi } from 'vitest';
import { createPageModel, type PageModel } from '../../src/page/model/page-model.ts';
import { createWhatChanged } from '../../src/page/model/what-changed.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { engineServices } from './engine-services.ts';
import { studyResult } from './study-fixture.ts';

const text = smallScenarioText({
	trial: { starts: 1, warmup: 6, settle: 6, measured: 12 },
	sensing: {
		virtualNeutral: { star: { value: '66k5', mismatch: '10 %' }, ground: { value: '4k75', mismatch: '10 %' } },
	},
});

let services: ReturnType<typeof engineServices>;
let model: PageModel;

beforeEach(async () => {
	services = engineServices(text);
	model = createPageModel(services);
	model.setUnits('60');
	await model.run();
});

const row = (key: string) => {
	const found = model.inputs.rows.value.find((one) => one.key === key);
	if (!found) throw new Error(key);
	return found;
};
/** A study that was stopped after so many drives. */
const studyWith = async (finished: number) => ({
	result: studyResult({ partial: true, units: { asked: 40, finished, failed: 0 } }),
	record: { ticket: '' },
});
/** Until the page is at rest and so is what runs behind it. */
const settled = async (): Promise<void> => {
	for (let i = 0; i < 20; i++) await new Promise((resolve) => setTimeout(resolve, 5));
};
const edit = async (key: string, typed: string, field: 'value' | 'mismatch' = 'mismatch'): Promise<void> => {
	model.inputs.type(row(key), field, typed);
	await settled();
};

test('an edit is followed by a preview at the point on show and then by the full number', async () => {
	services.asked.length = 0;
	model.whichChoice.setPoint(1);
	model.inputs.type(row('sensing.virtualNeutral.star'), 'mismatch', '1 %');
	expect(model.status.value).toMatchObject({ state: 'previewing', asked: 60 });
	await settled();
	expect(services.asked).toEqual(['preview 60 at 1', 'study 60']);
	expect(model.onShow.value?.preview).toBeNull();
	expect(model.shown.value?.scenario).toBe(model.scenario.value);
});

test('while only the preview is there it is called that, with its drives, starts and point', async () => {
	const never = new Promise<never>(() => {});
	const slow = createPageModel({
		...services,
		study: (request, watch) => (slow2 ? never : services.study(request, watch)),
	});
	let slow2 = false;
	slow.setUnits('40');
	await slow.run();
	slow2 = true;
	const star = slow.inputs.rows.value.find(({ key }) => key === 'sensing.virtualNeutral.star');
	if (star) slow.inputs.type(star, 'mismatch', '1 %');
	await settled();
	expect(slow.whichChoice.reservations.value).toEqual([
		'A preview: 40 drives, one start each, at fast alone. The full number is being simulated behind it.',
	]);
	expect(slow.whichChoice.answer.value?.overall).toMatch(/\(preview from 40 drives\)\.$/);
	expect(slow.whichChoice.tabs.value[1]?.verdict).toBe('not yet worked out');
});

test('a preview tells the drives that could not be simulated beside those it is of: 37 drives (3 more could not be)', async () => {
	const never = new Promise<never>(() => {});
	const broken = createPageModel({
		...services,
		study: () => never,
		async preview(request, watch) {
			const found = await services.preview(request, watch);
			return found && { ...found, units: { asked: 40, finished: 37, failed: 3 } };
		},
	});
	broken.setUnits('40');
	void broken.follow();
	await settled();
	expect(broken.whichChoice.reservations.value[0]).toMatch(
		/^A preview: 37 drives \(3 more could not be simulated\), one start each/,
	);
});

test('cancelled within its preview a run ends there, and both rail and view tell what the figures are of', async () => {
	let begin = (): void => {};
	const begun = new Promise<void>((resolve) => {
		begin = resolve;
	});
	const study = vi.fn(services.study);
	const slow = createPageModel({
		...services,
		study,
		async preview(request, { signal, ...watch }) {
			const found = await services.preview({ ...request, units: 10 }, { signal, ...watch });
			begin();
			await new Promise((resolve) => signal.addEventListener('abort', resolve));
			return found && { ...found, units: { asked: 40, finished: 10, failed: 0 }, isComplete: false };
		},
	});
	slow.setUnits('40');
	const run = slow.follow();
	await begun;
	slow.cancel();
	await run;
	expect(study).not.toHaveBeenCalled();
	expect(slow.status.value).toEqual({ state: 'idle', note: 'Stopped within the preview, after 10 drives.' });
	expect(slow.whichChoice.reservations.value).toEqual([
		'A preview: 10 drives, one start each, at fast alone. The run was stopped before there were more figures.',
	]);
});

test.each([
	['cancelled', () => studyWith(0), /The run was stopped before there were more figures\.$/],
	['that failed', () => Promise.reject(new Error('no workers')), /The run failed before there were more figures\.$/],
])('a run %s after its preview no longer promises the full number', async (_how, study, words) => {
	const ended = createPageModel({ ...services, study });
	ended.setUnits('40');
	await ended.follow();
	expect(ended.whichChoice.reservations.value).toEqual([expect.stringMatching(words)]);
});

test('a first visit is answered by a preview before any study is there, with a tab for every point', async () => {
	const first = createPageModel({ ...services, study: () => new Promise<never>(() => {}) });
	first.setUnits('40');
	void first.follow();
	expect(first.status.value).toMatchObject({ state: 'previewing', asked: 40 });
	await settled();
	expect(first.status.value.state).toBe('running');
	expect(first.shown.value).toBeNull();
	expect(first.whichChoice.answer.value?.overall).toMatch(/\(preview from 40 drives\)\.$/);
	expect(first.whichChoice.answer.value?.level).toBe('95\u00a0%');
	expect(first.whichChoice.tabs.value.map(({ name }) => name)).toEqual(
		first.scenario.value?.points.map(({ name }) => name),
	);
	expect(first.whichChoice.tabs.value[1]?.verdict).toBe('not yet worked out');
});

test('an input with a problem runs nothing, and undo shows the earlier figures without another run', async () => {
	const before = model.shown.value;
	await edit('sensing.virtualNeutral.star', '1 %');
	services.asked.length = 0;
	await edit('sensing.virtualNeutral.star', 'one');
	expect(services.asked).toEqual([]);
	expect(model.status.value.state).toBe('idle');
	model.inputs.undo();
	await settled();
	expect(services.asked).toEqual([]);
	expect(model.shown.value?.result).toBe(before?.result);
});

test('a pinned result is held against the next one: ghost, change with its interval, on the same units', async () => {
	expect(model.against.canPin.value).toBe(true);
	model.against.pin();
	expect(model.against.isBaseline.value).toBe(true);
	expect(model.whichChoice.answer.value?.hasGhost).toBe(false);
	await edit('sensing.virtualNeutral.star', '0.1 %');
	const answer = model.whichChoice.answer.value;
	expect(answer?.hasGhost).toBe(true);
	expect(answer?.change?.lead).toMatch(
		/^Since the baseline, at fast: half-bus \d+\.\d\d° →\s\d+\.\d\d°, 0\.00°\u00a0±\u00a00\.00° \(no change shown\); virtual neutral (\d+\.\d\d)° →\s(\d+\.\d\d)°, −\d+\.\d\d°\u00a0±\u00a0\d+\.\d\d°/,
	);
	expect(answer?.change?.basis).toMatch(/^The median drive: .* on the same 60 drives; ±\s/);
	expect(answer?.figures[0]?.rows[0]?.figures.virtualNeutral.was).toMatch(
		/^was \d+\.\d\d°: −\d+\.\d\d° ±\u00a0\d+\.\d\d°$/,
	);
	model.inputs.undo();
	await settled();
	expect(model.against.isBaseline.value).toBe(true);
	expect(model.whichChoice.answer.value?.hasGhost).toBe(false);
	model.inputs.redo();
	await settled();
	expect(model.whichChoice.answer.value?.hasGhost).toBe(true);
	model.against.unpin();
	expect(model.whichChoice.answer.value?.change).toBeNull();
});

test('a preview is held against a preview of the baseline, made in a quiet moment', async () => {
	model.against.pin();
	await settled();
	expect(services.asked.at(-1)).toBe('preview 60 at 0');
	expect(services.asked.filter((what) => what.startsWith('preview'))).toHaveLength(1);
});

test('a baseline taken up without its units has them simulated again in a quiet moment, and then its changes', async () => {
	model.against.pin();
	const pinned = model.against.baseline.value;
	if (!pinned) throw new Error('nothing pinned');
	await edit('sensing.virtualNeutral.star', '0.1 %');
	const before = model.whichChoice.answer.value?.change?.lead;
	model.against.unpin();
	const { record: _, ...shown } = pinned.shown;
	services.asked.length = 0;
	model.against.adopt({ ...pinned, shown });
	expect(model.whichChoice.answer.value?.hasGhost).toBe(true);
	await settled();
	expect(services.asked).toContain('study 60');
	expect(model.whichChoice.answer.value?.change?.lead).toBe(before);
});

test('two edits share the whole change of every figure, and are told apart only while someone looks', async () => {
	model.against.pin();
	const view = model.part('what-changed', () => createWhatChanged(model));
	await edit('sensing.virtualNeutral.star', '0.1 %');
	await edit('sensing.virtualNeutral.ground', '0.1 %');
	expect(view.edits.value.map(({ name, before, after }) => `${name}: ${before} → ${after}`)).toEqual([
		'star resistor: 66.5\u00a0kΩ, mismatch 10\u00a0% → 66.5\u00a0kΩ, mismatch 0.1\u00a0%',
		'star ground resistor: 4.75\u00a0kΩ, mismatch 10\u00a0% → 4.75\u00a0kΩ, mismatch 0.1\u00a0%',
	]);
	expect(services.asked.some((what) => what.startsWith('compare'))).toBe(false);
	view.setOpen(true);
	await settled();
	expect(services.asked.at(-1)).toBe('compare 4 at 0');
	const { value } = view.attributing;
	if (value.state !== 'done') throw new Error(JSON.stringify(value));
	const [typical] = value.attribution.figures;
	const { whole, rows } = typical?.choices.virtualNeutral ?? { whole: '', rows: [] };
	const number = (words: string | undefined): number => Number.parseFloat((words ?? '').replace('−', '-'));
	const sum = rows.reduce((total, { share }) => total + number(share?.words), 0);
	// each share is printed to 0.01°
	expect(Math.abs(sum - number(whole))).toBeLessThanOrEqual(0.015);
	expect(number(whole)).toBeLessThan(0);
	// half-bus has neither part: its shares are nothing
	expect(typical?.choices.halfBus.rows.map(({ share }) => share?.words)).toEqual(['0.00°', '0.00°']);
});

test('edits that only hold together are said to, and more than ten are not told apart', async () => {
	model.against.pin();
	const view = model.part('what-changed', () => createWhatChanged(model));
	view.setOpen(true);
	await edit('detection.majorityWindow', '5', 'value');
	await edit('detection.majorityVotes', '4', 'value');
	const { value } = view.attributing;
	expect(value.state === 'none' && value.words).toMatch(
		/^Some of the edits only hold together: .*majority window of 3/,
	);
});

test('a place picked in the error pictures names the drives of each choice that make it, with links to them', async () => {
	await model.drivesHere.pick({ from: 20, to: 21 });
	const here = model.drivesHere.here.value;
	if (here?.state !== 'found') throw new Error(JSON.stringify(here));
	expect(here.range).toBe('20.0° … 21.0°');
	expect(here.choices.virtualNeutral).toHaveLength(4);
	const [first] = here.choices.virtualNeutral;
	const worst = model.shown.value?.result.points[0]?.choices.virtualNeutral.angleError.maxAbs ?? 0;
	expect(first?.words).toMatch(/^drive \d+ \(latest \+\d+\.\d+°\)$/);
	expect(Number(first?.words.match(/\+([\d.]+)/)?.[1])).toBeLessThanOrEqual(worst + 0.05);
	expect(first?.link).toMatch(/^#one-drive\?unit=\d+&point=0$/);
	await edit('sensing.virtualNeutral.star', '1 %');
	expect(model.drivesHere.here.value).toBeNull();
});
