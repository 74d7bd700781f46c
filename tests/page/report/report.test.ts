import { signal } from '@preact/signals';
import { expect, test, vi } from 'vitest';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import { createReport, type ReportAsked, type ReportWatch } from '../../../src/page/model/report/report.ts';
import type { RunStatus } from '../../../src/page/model/run-status.ts';
import type { ScenarioSource } from '../../../src/page/model/scenario-source.ts';
import type { Shown, StudyRequest } from '../../../src/page/model/services.ts';
import { work } from '../kept/kept-fixture.ts';
import { studyResult } from '../study-fixture.ts';

const { text } = work();
const reading = readScenario(text);
if (!('scenario' in reading)) throw new Error('broken demo');
const { scenario } = reading;
const asked = { scenario, units: 1000, seed: 'demo' };

/** A report that the test finishes or fails by hand. */
function made(result = studyResult()) {
	const shown = signal<Shown | null>({ ...asked, result });
	const request = signal<StudyRequest | null>(asked);
	const save = vi.fn(async (_name: string, _text: string) => {});
	const orders: {
		readonly asked: ReportAsked;
		readonly watch: ReportWatch;
		readonly finish: (text: string) => void;
		readonly fail: (error: unknown) => void;
	}[] = [];
	const report = createReport(
		{
			shown,
			request,
			state: signal<RunStatus['state']>('idle'),
			inputs: { text: signal(text) } as never,
			scenario: signal(scenario),
			source: signal<ScenarioSource>({ kind: 'demo', file: 'fan-24v.json', text }),
		},
		(asked, watch) =>
			new Promise((finish, fail) => {
				orders.push({ asked, watch, finish, fail });
			}),
		save,
	);
	return { report, shown, request, save, orders };
}

test('a report is of the result on show, with the scenario’s text and what was ticked, in the order of the report', async () => {
	const { report, save, orders } = made();
	report.choose('weakest', true);
	report.choose('origins', true);
	report.choose('budgets', true);
	report.choose('budgets', false);
	const making = report.save();
	void report.save();
	expect(orders).toHaveLength(1);
	expect(orders[0]?.asked).toEqual({
		scenario,
		scenarioText: text,
		study: { asked: { seed: 'demo', units: 1000, until: { rule: 'number' } }, result: studyResult() },
		further: ['origins', 'weakest'],
	});
	orders[0]?.watch.onProgress('origins', { asked: 100, finished: 40, failed: 1 });
	expect(report.status.value).toEqual({
		state: 'working',
		on: { title: 'Origins of the spread', asked: 100, finished: 40, failed: 1 },
	});
	expect(report.heard.value).toBe('Computing: Origins of the spread.');
	orders[0]?.watch.onProgress('origins', { asked: 100, finished: 99, failed: 1 });
	expect(report.status.value).toEqual({ state: 'working', on: null });
	orders[0]?.finish('<!doctype html>');
	await making;
	expect(save.mock.calls).toEqual([['24-v-fan-report.html', '<!doctype html>']]);
	expect(report.status.value).toEqual({ state: 'idle', note: 'Saved as 24-v-fan-report.html.' });
});

test.each([
	['figures of a run that was stopped', studyResult({ partial: true }), asked, /^The run was stopped/],
	['figures of another seed', studyResult(), { ...asked, seed: 'other' }, /not those of the inputs as they are/],
	['inputs with a problem', studyResult(), null, /not those of the inputs as they are/],
])('%s give no report, and why is told', async (_name, result, now, words) => {
	const { report, request, save, orders } = made(result);
	request.value = now;
	expect(report.obstacle.value).toMatch(words);
	await report.save();
	expect(orders).toEqual([]);
	expect(save).not.toHaveBeenCalled();
});

test('one that is stopped is not saved, also where it was finished meanwhile; one that fails says why', async () => {
	const { report, save, orders } = made();
	const stopped = report.save();
	report.cancel();
	expect(orders[0]?.watch.signal.aborted).toBe(true);
	orders[0]?.finish('too late');
	await stopped;
	expect(report.status.value).toEqual({ state: 'idle', note: 'Stopped: no report was saved.' });
	const failed = report.save();
	orders[1]?.fail(new Error('the engine failed'));
	await failed;
	expect(report.status.value).toEqual({ state: 'failed', message: 'the engine failed' });
	expect(save).not.toHaveBeenCalled();
});
