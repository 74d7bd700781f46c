import { computed, signal } from '@preact/signals';
import { beforeEach, expect, test } from 'vitest';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { createLongQuestion, type LongWatch } from '../../src/page/model/long-question.ts';
import { createPageModel, type PageModel } from '../../src/page/model/page-model.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { engineServices } from './engine-services.ts';

interface Asked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly rows: number;
}
interface Result {
	readonly provenance: { readonly partial: boolean };
	readonly star: number;
}
interface Call {
	readonly asked: Asked;
	readonly watch: LongWatch<Result>;
	readonly end: (partial?: boolean) => void;
	readonly fail: (message: string) => void;
}

const star = 'sensing.virtualNeutral.star';
let model: PageModel;
let calls: Call[];
/** What was handed over to be kept. */
let keptNow: [asked: string, result: Result][];
const rows = signal(20);

beforeEach(async () => {
	rows.value = 20;
	calls = [];
	keptNow = [];
	model = createPageModel(
		engineServices(smallScenarioText({ trial: { starts: 1, warmup: 6, settle: 6, measured: 12 } })),
	);
	model.setUnits('12');
	await model.run();
});

const question = (earlier?: ReadonlyMap<string, Result>) =>
	createLongQuestion<Asked, Result>({
		model,
		kept: earlier && {
			read: async () => (asked) => earlier.get(asked) ?? null,
			keep: (asked, result) => void keptNow.push([asked, result]),
		},
		request: computed(() =>
			model.request.value && rows.value > 0
				? { scenario: model.request.value.scenario, seed: model.request.value.seed, rows: rows.value }
				: null,
		),
		run: (asked, watch) =>
			new Promise((resolve, reject) => {
				calls.push({
					asked,
					watch,
					end: (partial = false) =>
						resolve({ provenance: { partial }, star: Number(asked.scenario.values[star]) * asked.rows }),
					fail: (message) => reject(new Error(message)),
				});
			}),
		sentence: ({ star }) => `The star is ${star}.`,
	});
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
const settled = async (): Promise<void> => {
	for (let i = 0; i < 20; i++) await turn();
};
const edit = async (typed: string): Promise<void> => {
	const row = model.inputs.rows.value.find(({ key }) => key === star);
	if (row) model.inputs.type(row, 'value', typed);
	await settled();
};
const answered = async (asked = question()) => {
	asked.setOpen(true);
	calls.at(-1)?.end();
	await turn();
	return asked;
};

test('it is asked once when its view is opened and no more, told of by quarters and answered in a sentence', async () => {
	const asked = question();
	expect(calls).toHaveLength(0);
	asked.setOpen(true);
	expect(calls).toHaveLength(1);
	const heard = [40, 110, 200].map((finished) => {
		calls[0]?.watch.onProgress({ asked: 400, finished, failed: 0 });
		return asked.heard.value;
	});
	expect(heard).toEqual([
		'Simulating drives for this question.',
		'25\u00a0% of the drives simulated.',
		'50\u00a0% of the drives simulated.',
	]);
	calls[0]?.end();
	await turn();
	expect(asked.status.value).toEqual({ state: 'done', seconds: 0 });
	expect(asked.heard.value).toBe('Finished. The star is 1330000.');
	asked.setOpen(false);
	asked.setOpen(true);
	expect(calls).toHaveLength(1);
});

test('opened while the page itself runs, it waits for that to end', async () => {
	const run = model.run();
	const asked = question();
	asked.setOpen(true);
	expect(asked.status.value.state).toBe('waiting');
	expect(calls).toHaveLength(0);
	await run;
	expect(calls).toHaveLength(1);
});

test('an edit ends work that it makes stale, and what was worked out stays, marked with the edit', async () => {
	const asked = await answered();
	await edit('68k');
	expect(asked.isStale.value).toBe(true);
	expect(asked.staleWords.value).toMatch(
		/^These figures are of earlier inputs\. Changed since: star resistor 66\.5\u00a0kΩ, .* →\s68\u00a0kΩ, /,
	);
	expect(asked.answer.value?.result.star).toBe(20 * 66_500);
	void asked.ask();
	expect(calls).toHaveLength(2);
	await edit('69k8');
	expect(calls[1]?.watch.signal.aborted).toBe(true);
	expect(asked.status.value).toEqual({ state: 'idle', note: 'Stopped, since an input was changed.' });
	// it comes too late to be shown
	calls[1]?.end(true);
	await turn();
	expect(asked.answer.value?.result.star).toBe(20 * 66_500);
	expect(calls).toHaveLength(2);
});

test('figures so far of work that an edit ended are those of a stopped run', async () => {
	const asked = question();
	asked.setOpen(true);
	calls[0]?.watch.onPartial({ provenance: { partial: true }, star: 1 });
	expect(asked.answer.value?.is).toBe('so far');
	await edit('68k');
	expect(asked.answer.value).toMatchObject({ is: 'stopped', result: { star: 1 } });
});

test('taken back, an edit finds its answer again without another run; so does a setting of the view', async () => {
	const asked = await answered();
	await edit('68k');
	void asked.ask();
	calls[1]?.end();
	await turn();
	expect(asked.answer.value?.result.star).toBe(20 * 68_000);
	model.inputs.undo();
	await settled();
	expect([asked.isStale.value, asked.answer.value?.result.star]).toEqual([false, 20 * 66_500]);
	rows.value = 30;
	expect(asked.staleWords.value).toBe('These figures were asked for with other settings than the present ones.');
	rows.value = 20;
	expect(asked.isStale.value).toBe(false);
	expect(calls).toHaveLength(2);
});

test('stopped by its reader it shows what finished and does not begin again by itself', async () => {
	const asked = question();
	asked.setOpen(true);
	asked.cancel();
	expect(calls[0]?.watch.signal.aborted).toBe(true);
	calls[0]?.end(true);
	await turn();
	expect(asked.answer.value?.is).toBe('stopped');
	expect(asked.status.value).toEqual({ state: 'idle', note: 'Stopped; what finished is shown.' });
	expect(calls).toHaveLength(1);
	void asked.ask();
	expect(calls).toHaveLength(2);
});

test('figures so far are shown as such; a run that fails says why and can be asked again', async () => {
	const asked = question();
	asked.setOpen(true);
	calls[0]?.watch.onPartial({ provenance: { partial: true }, star: 1 });
	expect(asked.answer.value).toMatchObject({ is: 'so far', result: { star: 1 } });
	calls[0]?.fail('no worker could be started');
	await turn();
	expect(asked.status.value).toEqual({ state: 'failed', message: 'no worker could be started' });
	void asked.ask();
	calls[1]?.end();
	await turn();
	expect(asked.answer.value?.is).toBe('finished');
});

test('with a baseline pinned the same is asked of it too, and shown as its ghost while it is another one', async () => {
	model.against.pin();
	const asked = await answered();
	expect(asked.ghost.value).toBeNull();
	expect(calls).toHaveLength(1);
	await edit('68k');
	rows.value = 30;
	void asked.ask();
	calls[1]?.end();
	await turn();
	expect(asked.status.value).toMatchObject({ state: 'running', of: 'baseline' });
	expect(calls[2]?.asked).toMatchObject({ rows: 30, scenario: { values: { [star]: 66_500 } } });
	calls[2]?.end();
	await turn();
	expect(asked.answer.value?.result.star).toBe(30 * 68_000);
	expect(asked.ghost.value?.result.star).toBe(30 * 66_500);
	expect(asked.status.value.state).toBe('done');
});

/** What the page asks now, as it is kept. */
const asNow = (rows = 20): string =>
	JSON.stringify({ scenario: model.request.value?.scenario, seed: model.request.value?.seed, rows });
const whole = (star: number): Result => ({ provenance: { partial: false }, star });

test('an answer of an earlier visit is shown without asking; an edit makes it stale, and what is asked then is kept', async () => {
	const asked = question(new Map([[asNow(), whole(5)]]));
	asked.setOpen(true);
	await settled();
	expect(calls).toHaveLength(0);
	expect(asked.answer.value).toMatchObject({ is: 'finished', result: { star: 5 } });
	expect(asked.heard.value).toBe('Figures of an earlier run of the same inputs.');
	await edit('68k');
	expect(asked.isStale.value).toBe(true);
	expect(asked.heard.value).toBe('');
	expect(asked.answer.value?.result.star).toBe(5);
	expect(calls).toHaveLength(0);
	void asked.ask();
	calls[0]?.end();
	await turn();
	expect(keptNow).toEqual([[asNow(), whole(20 * 68_000)]]);
	model.inputs.undo();
	await settled();
	expect([asked.isStale.value, asked.answer.value?.result.star]).toEqual([false, 5]);
	expect(calls).toHaveLength(1);
});

test('what was stopped is not kept', async () => {
	const asked = question(new Map());
	asked.setOpen(true);
	await settled();
	expect(calls).toHaveLength(1);
	calls[0]?.end(true);
	await turn();
	expect(keptNow).toEqual([]);
});

test('before the page has its inputs nothing is shown or asked, since they are not yet those it was left with', async () => {
	model = createPageModel(engineServices(smallScenarioText({})));
	const asked = question(new Map([[asNow(), whole(5)]]));
	asked.setOpen(true);
	await settled();
	expect([asked.answer.value, asked.status.value, calls.length]).toEqual([null, { state: 'idle', note: '' }, 0]);
	model.setSeed('left');
	await model.run();
	await settled();
	expect(asked.answer.value).toBeNull();
	expect(calls).toHaveLength(1);
});

test("the baseline's answer comes back as the ghost of the other one", async () => {
	const before = asNow();
	model.against.pin();
	await edit('68k');
	const asked = question(
		new Map([
			[before, whole(1)],
			[asNow(), whole(2)],
		]),
	);
	asked.setOpen(true);
	await settled();
	expect([asked.answer.value?.result.star, asked.ghost.value?.result.star]).toEqual([2, 1]);
	expect(calls).toHaveLength(0);
});
