import { beforeAll, expect, test, vi } from 'vitest';
import { applyGrade } from '../../shared/grades/apply-grade.ts';
import { caseFigures } from '../../shared/grades/case-figures.ts';
import { gradePlan } from '../../shared/grades/grade-plan.ts';
import { judgeGrades } from '../../shared/grades/judge-grades.ts';
import type { GradesResult } from '../../shared/grades/result.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { gradesTable } from '../../src/command-line/grades-table.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { type GradesRequest, runGrades, runGradesInPool } from '../../src/host/run-grades.ts';
import { runPlansInPool } from '../../src/host/run-plans.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { gradeScenario, offered } from '../grades/grade-scenario.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { buildWorker } from './build-worker.ts';

// many runs, and threads of their own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const scenario = gradeScenario();
const request: GradesRequest = {
	scenario,
	group: 'all',
	grades: offered('20 % E24+E96, 5 % E24+E96, 1 % E24+E96, 0.1 % E24+E96'),
	seed: 'grades',
	units: 40,
};
let host: WorkerHost;
let all: GradesResult;
beforeAll(async () => {
	host = nodeHost(await buildWorker('workers/node-worker.ts'));
	all = await runGradesInPool(request, inlinePool());
});

test("the scenario's own grade gives the digits of an ordinary study: same draws, same columns to the last bit", async () => {
	const { provenance } = await runStudyInPool({ scenario, seed: 'grades', units: 40 }, inlinePool());
	const own = all.grades.find(({ grade }) => grade.name === '1 % E24+E96');
	expect(own?.cases.both.resultDigest).toBe(provenance.resultDigest);
	expect(own?.cases.both.compensation).toEqual(provenance.compensation);
	expect(own?.cases.tolerance).toEqual(own?.cases.both);
	const digests = all.grades.map(({ cases }) => cases.both.resultDigest);
	expect(new Set(digests).size).toBe(4);
});

test('5 % of E24 is the study of the board that a person would write down with 47 kΩ, 68 kΩ and 4.7 kΩ', async () => {
	const part = (value: string) => ({ value, mismatch: '5 %' });
	const written = gradeScenario({
		sensing: {
			divider: { top: part('22k'), bottom: part('4k7') },
			halfBus: { top: part('47k'), bottom: part('4k7') },
			virtualNeutral: { star: part('68k'), ground: part('4k7') },
		},
	});
	const [result, { provenance }] = await Promise.all([
		runGradesInPool({ ...request, grades: offered('5 %'), units: 10 }, inlinePool()),
		runStudyInPool({ scenario: written, seed: 'grades', units: 10 }, inlinePool()),
	]);
	expect(result.grades[0]?.cases.both.resultDigest).toBe(provenance.resultDigest);
});

test('looser grades never pass more drives: 0.1, 1, 5 and 20 %; the worst drive in 20 is farther off at 5 % and farthest at 20 %', () => {
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const passed = all.grades.map(({ cases }) => cases.both.choices[choice].passed);
		const beyond = all.grades.map(({ cases }) => cases.both.choices[choice].unitError.q95);
		expect(passed).toEqual([...passed].sort((a, b) => b - a));
		expect(passed[0]).toBeGreaterThan(passed[3] as number);
		// at 1 % and below other parts decide, and 40 drives do not tell them apart
		const [tight, own, five, twenty] = beyond as [number, number, number, number];
		expect(Math.max(tight, own, all.exact.choices[choice].unitError.q95)).toBeLessThan(five);
		expect(five).toBeLessThan(twenty);
	}
});

test('the tightest is judged first, the loosest that holds is confirmed on fresh drives, and what follows one that does not hold is not judged', () => {
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const decisions = all.grades.map(({ judged }) => judged[choice]?.decision ?? null);
		const stop = decisions.findIndex((decision) => decision !== 'holds');
		expect(decisions.slice(0, stop).every((decision) => decision === 'holds')).toBe(true);
		expect(stop).toBeGreaterThan(0);
		expect(decisions.slice(stop + 1).every((decision) => decision === null)).toBe(true);
		const { loosest, fresh, confirmed, sentence } = all.enough[choice];
		expect(loosest).toBe(all.grades[stop - 1]?.grade.name);
		expect(fresh[0]).toMatchObject({ subject: loosest, seed: 'grades fresh 1' });
		expect(fresh.at(-1)?.subject).toBe(confirmed);
		expect(sentence).toContain(loosest);
	}
});

test("each grade's own nominal drive sets the compensation, and a stated one stays", async () => {
	const [five] = offered('5 %');
	if (!five) throw new Error('no grade');
	const result = await runGradesInPool({ ...request, grades: [five], units: 2 }, inlinePool());
	const { compensation } = nominalCompensation(applyGrade(scenario, 'all', five));
	expect(result.grades[0]?.cases.both.compensation).toEqual(compensation);
	expect(compensation).not.toEqual(nominalCompensation(scenario).compensation);
	const stated = gradeScenario({ detection: { compensation: '50 µs' } });
	const other = await runGradesInPool({ ...request, scenario: stated, grades: [five], units: 2 }, inlinePool());
	expect(other.grades[0]?.cases.both.compensation).toEqual({ halfBus: 50e-6, virtualNeutral: 50e-6 });
});

test('grades of the star move nothing of half-bus, and grades of the bus divider nothing of the virtual neutral', async () => {
	const quick = { ...request, grades: offered('5 %, 0.1 %'), units: 6 };
	const star = await runGradesInPool({ ...quick, group: 'star' }, inlinePool());
	const bus = await runGradesInPool({ ...quick, group: 'busDivider' }, inlinePool());
	for (const { cases } of star.grades) expect(cases.both.choices.halfBus).toEqual(star.exact.choices.halfBus);
	for (const { cases } of bus.grades)
		expect(cases.both.choices.virtualNeutral).toEqual(bus.exact.choices.virtualNeutral);
	expect(star.grades[1]?.cases.both.choices.virtualNeutral).not.toEqual(star.exact.choices.virtualNeutral);
	expect(star.enough.halfBus).toMatchObject({
		loosest: null,
		sentence: expect.stringContaining('no resistor of the star'),
	});
});

test('with prices the cheapest mix that held is tried on fresh drives, at a third of the chance of error', async () => {
	const priced = offered('20 % E24+E96, 5 % E24+E96, 0.1 % E24+E96', [1, 2, 10]);
	const result = await runGradesInPool({ ...request, grades: priced }, inlinePool());
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const mix = result.cheapest?.[choice];
		expect(mix?.searched).toHaveLength(9);
		const prices = mix?.searched.map(({ price }) => price) ?? [];
		expect(prices).toEqual([...prices].sort((a, b) => a - b));
		const held = mix?.searched.filter(({ verdict }) => verdict.decision === 'holds') ?? [];
		expect(held.length).toBeGreaterThan(0);
		expect(mix?.fresh[0]?.subject).toEqual({ grades: held[0]?.grades, price: held[0]?.price });
		expect(mix?.fresh[0]?.seed).toBe('grades mix 1');
		expect(mix?.fresh[0]?.confidence).toBeCloseTo(1 - 0.05 / 3, 12);
		expect(mix?.sentence).toContain(String(held[0]?.price));
	}
	// in E24 and E96 no value moves, and the diagonal of the mixes is the ladder: exact resistors and nine mixes
	expect(result.provenance.runs).toBe(1 + 9);
});

test('a single mix is told of as one', async () => {
	const result = await runGradesInPool({ ...request, grades: offered('5 % E24+E96', [1]), units: 2 }, inlinePool());
	expect(gradesTable(result)).toContain('0 of 1 mix was shown to hold in the search.');
});

test('one, two and eight workers, whatever the shards, give the record that no worker at all gives', async () => {
	const quick = { ...request, grades: offered('5 %, array 1 %/0.1 %'), units: 12 };
	const expected = await runGradesInPool(quick, inlinePool());
	for (const [workers, shardSize] of [
		[1, 7],
		[2, 64],
		[8, undefined],
	] as const) {
		const result = await runGrades({ ...quick, workers, ...(shardSize && { shardSize }) }, host);
		expect(result).toEqual(expected);
	}
});

test('ended early, the answer is the one of all drives, for any workers and shards', async () => {
	const early: GradesRequest = { ...request, grades: offered('20 %, 5 %, 0.1 %'), units: 220 };
	const result = await runGradesInPool(early, inlinePool());
	const plan = gradePlan(scenario, 'all', early.grades);
	const { results: whole } = await runPlansInPool(
		{
			runs: plan.scenarios.map((one) => ({ scenario: one, seed: early.seed })),
			units: early.units,
			summarise: async (of, study) => caseFigures(of, study, ''),
		},
		inlinePool(),
	);
	const { judged, held } = judgeGrades(plan, whole, true);
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		expect(result.grades.map((grade) => grade.judged[choice]?.decision ?? null)).toEqual(
			judged[choice].map((verdict) => verdict?.decision ?? null),
		);
		expect(result.enough[choice].loosest).toBe(held[0]?.[choice][0]?.name ?? null);
	}
	const loosest = result.grades.at(-1);
	expect(result.exact.units.asked).toBe(220);
	expect(loosest?.cases.both.units.asked).toBeLessThan(220);
	expect(result.provenance.units.asked).toBeLessThan(220 * result.provenance.runs);
	expect(gradesTable(result)).toMatch(/Ended early: .*20 % after [12]00 drives/s);
	// the drives that were run are those of the whole run
	const short = loosest?.cases.both.units.asked ?? 0;
	const { provenance } = await runStudyInPool(
		{ scenario: plan.scenarios[plan.gradePlaces[2]?.both ?? 0] as typeof scenario, seed: early.seed, units: short },
		inlinePool(),
	);
	expect(loosest?.cases.both.resultDigest).toBe(provenance.resultDigest);
	expect(await runGrades({ ...early, workers: 2, shardSize: 30 }, host)).toEqual(result);
});

test('where one nominal drive cannot be simulated, its grade does not hold, and the looks at the others go on', async () => {
	// a shard of the nominal drives is one scenario: exact resistors, then the grades, tightest first
	const losing = (lost: number) =>
		runGradesInPool(
			{ ...request, grades: offered('20 %, 5 %, 0.1 %'), units: 220 },
			inlinePool({
				shards: 16,
				before(name, from) {
					if (name === 'nominalDelaysOfScenarios' && from === 16 * lost) throw new Error('no crossing');
				},
			}),
		);
	const [exact, tightest, middle] = await Promise.all([0, 1, 2].map(losing));
	expect(exact?.exact.units.failed).toBe(220);
	expect(tightest?.grades[0]?.cases.both.units.failed).toBe(220);
	expect(tightest?.enough.halfBus.loosest).toBeNull();
	expect(middle?.grades[1]?.cases.both.units.failed).toBe(220);
	expect(middle?.enough.halfBus.loosest).toBe('0.1 %');
	expect(middle?.grades[2]?.judged.halfBus).toBeNull();
});

test('progress ends with all drives that were run, also where runs ended early', async () => {
	for (const list of ['20 %, 10 %', '20 %, 5 %, 0.1 %', '0.1 %']) {
		const seen: { readonly asked: number; readonly finished: number; readonly failed: number }[] = [];
		await runGradesInPool(
			{ ...request, grades: offered(list), units: 220, onProgress: (progress) => void seen.push(progress) },
			inlinePool(),
		);
		for (const { asked, finished, failed } of seen) expect(finished + failed).toBeLessThanOrEqual(asked);
		const last = seen.at(-1);
		expect(last?.finished).toBe(last?.asked);
	}
});

test('a shard that fails across two runs counts its drives as failed in each, and against each grade', async () => {
	const pool = inlinePool({
		before(name, from) {
			if (name === 'unitsOfPlans' && from === 36) throw new Error('a worker died');
		},
	});
	// shards of 12 over runs of 40: drives 36 to 39 of the first run, 0 to 7 of the second
	const result = await runGradesInPool({ ...request, shardSize: 12 }, pool);
	expect(result.exact.units).toEqual({ asked: 40, finished: 36, failed: 4 });
	expect(result.grades[0]?.cases.both.units).toEqual({ asked: 40, finished: 32, failed: 8 });
	expect(result.grades[0]?.judged.halfBus?.decision).not.toBe('holds');
	expect(result.grades[1]?.cases.both.units.failed).toBe(0);
});

test('where nominal drives cannot be simulated, all drives of those runs count as failed and nothing holds', async () => {
	const pool = inlinePool({
		before(name) {
			if (name === 'nominalDelaysOfScenarios') throw new Error('no crossing');
		},
	});
	const result = await runGradesInPool({ ...request, units: 5 }, pool);
	expect(result.exact.units).toEqual({ asked: 5, finished: 0, failed: 5 });
	expect(result.enough.halfBus).toMatchObject({
		loosest: null,
		sentence: expect.stringContaining('no drive was finished'),
	});
});

test('cut short, nothing is judged, and the figures of what finished are there', async () => {
	const cancel = new AbortController();
	const result = await runGradesInPool(
		{
			...request,
			signal: cancel.signal,
			shardSize: 10,
			onProgress({ finished }) {
				if (finished >= 100) cancel.abort();
			},
		},
		inlinePool(),
	);
	expect(result.provenance.partial).toBe(true);
	expect(result.exact.units.finished).toBe(40);
	expect(result.grades.at(-1)?.cases.both.units.finished).toBe(0);
	expect(result.enough.halfBus).toMatchObject({
		loosest: null,
		fresh: [],
		sentence: expect.stringContaining('interrupted'),
	});
	for (const { judged } of result.grades) expect(judged).toEqual({ halfBus: null, virtualNeutral: null });
});

test('progress counts the drives of all runs, and of the fresh ones that follow', async () => {
	const seen: { readonly asked: number; readonly finished: number }[] = [];
	const result = await runGradesInPool(
		{ ...request, onProgress: (progress) => void seen.push(progress) },
		inlinePool(),
	);
	expect(seen[0]?.asked).toBe(result.provenance.runs * 40);
	expect(seen.at(-1)?.finished).toBe(seen.at(-1)?.asked);
	expect(seen.at(-1)?.asked).toBeGreaterThan(result.provenance.runs * 40);
});
