import { beforeEach, expect, test, vi } from 'vitest';
import type { ContestResult } from '../../../shared/contest/contest-result.ts';
import { contestSentence } from '../../../shared/contest/contest-sentence.ts';
import type { RangeResult } from '../../../shared/range/range-result.ts';
import { type ContestAsked, createContest, neighbourCell } from '../../../src/page/model/limits/contest.ts';
import { contestCells, contestTable } from '../../../src/page/model/limits/contest-cells.ts';
import { createEnvelope } from '../../../src/page/model/limits/envelope.ts';
import { createRange, type RangeAsked } from '../../../src/page/model/limits/range.ts';
import { createPageModel, type PageModel } from '../../../src/page/model/page-model.ts';
import { envelopeResult, rangeResult } from '../../range/range-fixture.ts';
import { smallScenarioText } from '../../study/small-scenario.ts';
import { engineServices } from '../engine-services.ts';
import { studyResult } from '../study-fixture.ts';

let model: PageModel;
beforeEach(async () => {
	model = createPageModel(
		engineServices(smallScenarioText({ trial: { starts: 1, warmup: 6, settle: 6, measured: 12 } })),
	);
	model.setUnits('12');
	await model.run();
});
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

/** A range model that notes what it is asked and answers with an invented result. */
function rangeModel(over: Partial<RangeResult> = {}) {
	const asked: RangeAsked[] = [];
	const range = createRange(model, async (request) => {
		asked.push(request);
		return rangeResult(over);
	});
	return { range, asked };
}

test('opened, it ranges over speed at the reference point; the link names another parameter, then over all points', async () => {
	const { range, asked } = rangeModel();
	range.question.setOpen(true);
	await turn();
	expect(asked).toHaveLength(1);
	expect(asked[0]).toMatchObject({ point: 0, load: 'square', units: 200, resolution: 0.02 });
	expect(asked[0]?.axes[0]?.record.id).toBe('operation.speed');
	range.setParameter('supply.voltage');
	expect(model.route.details.value.over).toBe('supply.voltage');
	expect(range.question.isStale.value).toBe(true);
	await range.question.ask();
	expect(asked[1]).toMatchObject({ point: null });
	expect(range.cost.value).toBe('9 values of at most 200 drives at 2 points');
	range.setPoint(1);
	expect(range.cost.value).toBe('9 values of at most 200 drives');
});

test('an end that cannot be read is told, and nothing can be asked until it is mended', () => {
	const { range } = rangeModel();
	range.entry.type({ from: '12 V' });
	expect(range.entry.problem.value).toMatch(/12 V/);
	expect(range.question.request.value).toBeNull();
	range.entry.type({ from: '3000' });
	expect(range.entry.problem.value).toBe('');
	expect(range.question.request.value?.axes[0]?.values[0]).toBe(3000);
	range.unitsTyped.value = 'many';
	expect(range.question.request.value).toBeNull();
});

test('values that cannot be simulated are left out and named; the others are asked', () => {
	const { range } = rangeModel();
	// at 1 rpm one run would take more PWM periods than are simulated
	range.entry.type({ from: '1', to: '8100', steps: '3', isLogarithmic: true });
	expect(range.question.request.value?.axes[0]?.values).toEqual([90, 8100]);
	expect(range.leftOut.value).toMatch(/^Left out, as it cannot be simulated: 1.rpm \(.* PWM periods/);
});

test('the answer has its lead, both pictures, every value in rising order and what it rests on', async () => {
	const { range } = rangeModel();
	range.question.setOpen(true);
	await turn();
	const answer = range.answer.value;
	expect(answer?.headline.replaceAll('\u00a0', ' ')).toBe(
		'The requirement is shown to hold down to 820 rpm with half-bus and down to 1200 rpm with virtual neutral (95 % confidence at each speed).',
	);
	expect(answer?.inFull[0]).toBe('Half-bus holds down to 820 rpm. This is an invented range.');
	expect(answer?.rows.map(({ value, isSearched }) => [value.replace('\u00a0', ' '), isSearched])).toEqual([
		['500 rpm', false],
		['820 rpm', true],
		['1200 rpm', false],
		['3000 rpm', false],
	]);
	expect(answer?.rows[0]?.choices[0]).toMatchObject({ worse: 'lost', decision: 'fails' });
	expect(answer?.pictures.errors.describes).toContain('lock lost at 500');
	expect(answer?.rests.rows.map(([term]) => term)).toContain('Result digest');
});

test('against a pinned baseline range and envelope say what each choice had, or that it is as before', async () => {
	await vi.waitFor(() => expect(model.against.canPin.value).toBe(true));
	model.against.pin();
	const row = model.inputs.rows.value.find(({ key }) => key === 'sensing.virtualNeutral.star');
	if (row) model.inputs.type(row, 'mismatch', '5 %');
	const { range } = rangeModel();
	await range.question.ask();
	await vi.waitFor(() => expect(range.answer.value?.changed).not.toBeNull());
	expect(range.answer.value?.changed?.lead.replaceAll('\u00a0', ' ')).toMatch(
		/^Since the baseline: half-bus 820 rpm \(not shown at 500 rpm\) as before; virtual neutral 1200 rpm .* as before\.$/,
	);
	const { everywhere } = envelopeResult();
	const fewer = { ...everywhere.halfBus, verdict: { ...everywhere.halfBus.verdict, share: 0.5, decision: 'fails' } };
	let runs = 0;
	const envelope = createEnvelope(model, async () => {
		runs += 1;
		return runs === 1
			? ({ ...envelopeResult(), everywhere: { ...everywhere, halfBus: fewer } } as never)
			: envelopeResult();
	});
	await envelope.question.ask();
	await vi.waitFor(() => expect(envelope.answer.value?.changed).not.toBeNull());
	expect(envelope.answer.value?.changed?.lead.replaceAll('\u00a0', ' ')).toMatch(
		/^Since the baseline: half-bus [\d.]+ % \(.*\) → 50\.0 % \(shown to be too few\); virtual neutral [\d.]+ % \(.*\) as before\.$/,
	);
});

const speed = { id: 'operation.speed', name: 'speed', unit: 'rpm', spacing: 'linear' } as const;
const torque = { id: 'operation.torque', name: 'load torque', unit: 'N·m', spacing: 'linear' } as const;
const cell = (better: 'halfBus' | 'virtualNeutral' | 'not shown', medianDifference: number, passed = [60, 50]) => ({
	units: { finished: 60, failed: 0 },
	smaller: { halfBus: 50, virtualNeutral: 10 },
	ties: 0,
	share: { low: 0.4, high: 0.9 },
	better,
	medianDifference,
	choices: {
		halfBus: { medianError: 2, passed: passed[0] as number, decision: 'holds' as const },
		virtualNeutral: { medianError: 3, passed: passed[1] as number, decision: 'fails' as const },
	},
});
const at = (rpm: number, newtons: number) => ({ 'operation.speed': rpm, 'operation.torque': newtons });

/** Two speeds and two torques: half-bus, not shown, one without a figure yet, one left out. */
function contestResult(first: Parameters<typeof cell>[0] = 'halfBus'): ContestResult {
	const answered: Omit<ContestResult, 'sentence'> = {
		format: 'anglespread-contest',
		formatVersion: 1,
		provenance: studyResult().provenance,
		requirement: studyResult().requirement,
		point: 'slow',
		speed: { ...speed, values: [600, 1200] },
		torque: { ...torque, values: [0.01, 0.05] },
		unitsAtMost: 200,
		cells: [
			{ at: at(600, 0.01), leftOut: null, figures: cell(first, -0.42) },
			{ at: at(1200, 0.01), leftOut: null, figures: cell('not shown', 0.02) },
			{ at: at(600, 0.05), leftOut: null, figures: null },
			{ at: at(1200, 0.05), leftOut: 'the load line leads too far', figures: null },
		],
	};
	return { ...answered, sentence: contestSentence(answered, 'finished') };
}

test('the map has the highest torque above; letters H, V, – and × tell cells apart, and each says what it is', () => {
	const rows = contestCells(contestResult(), contestResult('virtualNeutral'));
	expect(rows.map((cells) => cells.map(({ letter }) => letter))).toEqual([
		['', '×'],
		['H', '–'],
	]);
	const [waiting, leftOut] = rows[0] ?? [];
	const [won] = rows[1] ?? [];
	expect(waiting?.says).toMatch(/no drive is finished yet/);
	expect(leftOut?.says).toMatch(/1200.rpm, 50.mN·m: cannot be simulated, the load line leads too far/);
	expect(won).toMatchObject({ by: '0.42°', was: 'V', passing: { halfBus: 1, virtualNeutral: 50 / 60 } });
	expect(won?.says).toMatch(
		/^600.rpm, 10.mN·m: half-bus is better by 0\.42° in the median, smaller error with half-bus in 50 and with virtual neutral in 10 of 60 drives; 100.% pass with half-bus \(the requirement holds\); 83\.3.% pass with virtual neutral \(the requirement fails\); in the baseline virtual neutral was better/,
	);
	const { header, rows: table } = contestTable(contestResult());
	expect(table.map((row) => row.length)).toEqual(table.map(() => header.length));
	expect(table[0]?.slice(0, 4)).toEqual([600, 0.01, 'half-bus', -0.42]);
});

test('the sentence counts the two cells that have figures and leaves no further one out', () => {
	expect(contestResult().sentence).toMatch(
		/^Of 2 pairs of speed and torque, half-bus is better at 1 \(600.rpm\); virtual neutral is shown to be better at none; at 1 neither is shown to be better with up to 200 drives \(95.% confidence for the whole map\)\. .* 2 further pairs could not be simulated\.$/,
	);
	// one choice everywhere is said once
	const [first] = contestResult().cells;
	const { sentence: _, ...answered } = contestResult();
	expect(contestSentence({ ...answered, cells: first ? [first, first] : [] }, 'finished')).toMatch(
		/^Half-bus is shown to be better at all 2 pairs of speed and torque \(95.% confidence for the whole map\)\. /,
	);
	expect(contestResult('not shown').sentence).toMatch(
		/^At none of 2 pairs of speed and torque is either choice shown to be better with up to 200 drives \(95.% confidence for the whole map\)\. /,
	);
});

test('a map without its end says how many pairs are decided and how many are not, never that none is shown to be better', () => {
	const plain = (first: Parameters<typeof cell>[0], is: 'so far' | 'stopped', unitsAtMost = 200) =>
		contestSentence({ ...contestResult(first), unitsAtMost }, is).replaceAll('\u00a0', ' ');
	expect(plain('halfBus', 'so far')).toMatch(
		/^So far 1 of 3 pairs of speed and torque is decided: half-bus is better at 1 \(600 rpm\); virtual neutral is shown to be better at none; 2 are still being worked on, with up to 200 drives each \(95 % confidence for the whole map\)\. .* 1 further pair could not be simulated\.$/,
	);
	expect(plain('not shown', 'so far')).toMatch(
		/^So far none of 3 pairs of speed and torque is decided; 3 are still being worked on, with up to 200 drives each \(/,
	);
	// two had their 60 drives
	expect(plain('not shown', 'so far', 60)).toMatch(
		/^So far none of 3 pairs of speed and torque is decided; at 2 neither is shown to be better with 60 drives; 1 is still being worked on, /,
	);
	expect(plain('halfBus', 'stopped')).toMatch(
		/^The run was stopped with 1 of 3 pairs of speed and torque decided: .*; 2 were not worked on to their end \(/,
	);
	const empty = { ...contestResult(), cells: contestResult().cells.map((one) => ({ ...one, figures: null })) };
	expect(contestSentence(empty, 'so far')).toMatch(
		/^So far none of 3 pairs .* is decided; 3 are still being worked on/,
	);
});

test('arrow keys lead from cell to cell and stop at the edges; Home and End lead along a row', () => {
	const rows = contestCells(contestResult(), null);
	const key = (row: number, column: number): string => rows[row]?.[column]?.key ?? '';
	expect(neighbourCell(rows, key(0, 0), 'ArrowRight')).toBe(key(0, 1));
	expect(neighbourCell(rows, key(0, 0), 'ArrowDown')).toBe(key(1, 0));
	expect(neighbourCell(rows, key(0, 0), 'ArrowUp')).toBeNull();
	expect(neighbourCell(rows, key(1, 0), 'End')).toBe(key(1, 1));
	expect(neighbourCell(rows, key(1, 1), 'Home')).toBe(key(1, 0));
	expect(neighbourCell(rows, key(1, 1), 'Enter')).toBeNull();
});

test('the contest is asked with 8 speeds and 6 torques; a map so far is shown as such, and stays when it is stopped', async () => {
	let told: ((result: ContestResult) => void) | null = null;
	let end: ((result: ContestResult) => void) | null = null;
	const asked: ContestAsked[] = [];
	const contest = createContest(model, (request, watch) => {
		asked.push(request);
		told = watch.onPartial;
		return new Promise((resolve) => {
			end = resolve;
		});
	});
	contest.question.setOpen(true);
	expect(asked[0]?.speed.values).toHaveLength(8);
	expect(asked[0]?.torque.values).toHaveLength(6);
	expect(contest.cost.value).toBe('48 speeds and torques, up to 200 drives where it is not decided');
	const partial = { ...contestResult(), provenance: { ...contestResult().provenance, partial: true } };
	(told as unknown as (result: ContestResult) => void)(partial);
	expect(contest.answer.value?.reservations[0]).toMatch(/^Figures so far/);
	expect(contest.answer.value?.headline).toMatch(/^So far 1 of 3 pairs/);
	contest.question.cancel();
	(end as unknown as (result: ContestResult) => void)(partial);
	await turn();
	expect(contest.answer.value?.reservations[0]).toMatch(/^The run was stopped/);
	expect(contest.answer.value?.headline).toMatch(/^The run was stopped with 1 of 3 pairs/);
	expect(contest.answer.value?.rows).toHaveLength(2);
});

test('the envelope opens with what passes at every combination, and lists each worst combination once', async () => {
	const envelope = createEnvelope(model, async () => envelopeResult());
	envelope.question.setOpen(true);
	await turn();
	expect(envelope.answer.value?.headline).toMatch(
		/^At all 3 combinations of limits 95\.0.% of drives pass with half-bus \(not decided\) and 95\.0.% of drives pass with virtual neutral \(not decided\); 95.% must, with 95.% confidence\.$/,
	);
	expect(envelope.answer.value?.rows.map(({ signs }) => signs)).toEqual(['slow − +', 'slow − −', 'slow + −']);
	expect(envelope.answer.value?.signs).toBe('+ high, − low limit of speed, bus voltage, in this order.');
});
