import { expect, test, vi } from 'vitest';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { Axis } from '../../shared/range/axis.ts';
import { runRangeInPool } from '../../src/host/run-range.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { scenarioOfDefaults } from '../sampling/first-demo.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 120_000 });

const axis = (id: string, ...values: number[]): Axis => ({
	record: parameter(id) as NumberRecord,
	spacing: 'linear',
	values,
});
const base = { seed: 'range', units: 12, load: 'square', resolution: 0.01 } as const;
const scenario = smallScenario();

test("one value of speed at the second point has that point's digits in the study", async () => {
	const study = await runStudyInPool({ scenario, seed: 'range', units: 12 }, inlinePool());
	const result = await runRangeInPool(
		{ ...base, scenario, point: 1, axes: [axis('operation.speed', 7000)] },
		inlinePool(),
	);
	expect(result.values).toHaveLength(1);
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const wanted = study.points[1]?.choices[choice];
		const found = result.values[0]?.choices[choice];
		expect(found?.unitError).toEqual(wanted?.unitError);
		expect(found?.points[0]).toMatchObject({
			name: 'faster',
			sectors: wanted?.sectors,
			meanError: wanted?.angleError.mean,
			lost: wanted?.lost,
			computed: wanted?.computed?.all,
		});
		expect(found?.points[0]?.counted.count).toBe(
			(['early', 'late', 'missed'] as const).reduce((sum, kind) => sum + (wanted?.rates[kind].count ?? 0), 0),
		);
	}
	expect(result.provenance.compensation).toEqual(study.provenance.compensation);
});

test("the scenario's own bus voltage over all points has the study's verdict", async () => {
	const study = await runStudyInPool({ scenario, seed: 'range', units: 12 }, inlinePool());
	const result = await runRangeInPool(
		{ ...base, scenario, point: null, axes: [axis('supply.voltage', 48)] },
		inlinePool(),
	);
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const { passed, decision, share, low, high } = study.verdict[choice];
		expect(result.values[0]?.choices[choice]).toMatchObject({ passed, verdict: { decision, share, low, high } });
	}
});

test('with 30 mV of offset in an otherwise nominal, noiseless drive, the errors of both choices grow as the speed falls from 900 to 400 rpm', async () => {
	const demo = scenarioOfDefaults();
	const nominal = {
		...demo,
		values: {
			...demo.values,
			'sensing.comparator.offset': 30e-3,
			// the wait for a reading, which grows with speed, stays small, and the filters follow
			'inverter.pwmFrequency': 60e3,
			'sensing.divider.capacitor': 47e-12,
			'sensing.virtualNeutral.capacitor': 47e-12,
			'noise.sigma': 0,
			'detection.compensation': 20e-6,
		},
		tolerances: {},
		points: demo.points.map(({ name, values }) => ({
			name,
			values: { ...values, 'supply.rippleAmplitude': 0 },
			ranges: {},
		})),
	};
	const result = await runRangeInPool(
		{ ...base, units: 1, scenario: nominal, point: 0, axes: [axis('operation.speed', 400, 500, 600, 750, 900)] },
		inlinePool(),
	);
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const errors = result.values
			.filter(({ isSearched }) => !isSearched)
			.map(({ choices }) => choices[choice].unitError.median);
		expect(errors, choice).toEqual([...errors].sort((one, other) => other - one));
		// an offset is worth an angle of 1/speed; the wait for a reading adds a little at speed
		expect((errors[0] ?? 0) / (errors[4] ?? 0), choice).toBeCloseTo(900 / 400, 0);
	}
	// 30° of ramp are an EMF of E = Kω, of which the divider leaves g: 30° δ/(g E)
	const closedForm = (30 * 0.03) / ((4.7 / 26.7) * 0.03 * ((400 * 2 * Math.PI) / 60));
	const halfBus = result.values[0]?.choices.halfBus.unitError.median ?? 0;
	expect(halfBus).toBeGreaterThan(closedForm);
	expect(halfBus).toBeLessThan(closedForm + 0.3);
});

test('the slowest speed lies in a bracket of 5 %, below which the requirement is not shown to hold', async () => {
	const required = smallScenario({ requirement: { angleLimit: '6.5°', share: 0.5, crossingsPerHour: 1e9 } });
	const result = await runRangeInPool(
		{ ...base, units: 40, resolution: 0.05, scenario: required, point: 0, axes: [axis('operation.speed', 500, 3000)] },
		inlinePool(),
	);
	const [slowest] = result.slowest ?? [];
	expect(result.load).toBe('square');
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const { holds, fails, decision } = slowest?.choices[choice] ?? {};
		const at = (speed: number | null | undefined) =>
			result.values.find((value) => value.at['operation.speed'] === speed);
		expect(at(holds)?.choices[choice].verdict.decision).toBe('holds');
		expect(at(fails)?.choices[choice].verdict.decision).toBe(decision);
		expect(decision).not.toBe('holds');
		expect((holds ?? 0) - (fails ?? 0)).toBeLessThanOrEqual(0.05 * (holds ?? 0));
		expect(result.sentence).toContain('load line through fast');
	}
});

test('two parameters make every pair of values, and a part gets a compensation of its own at each value', async () => {
	const result = await runRangeInPool(
		{
			...base,
			units: 3,
			scenario,
			point: null,
			axes: [axis('supply.voltage', 44, 48), axis('sensing.divider.capacitor', 470e-12, 2.2e-9)],
		},
		inlinePool(),
	);
	expect(result.values.map(({ at }) => Object.values(at))).toEqual([
		[44, 470e-12],
		[48, 470e-12],
		[44, 2.2e-9],
		[48, 2.2e-9],
	]);
	const [first, second, third, fourth] = result.values.map(({ compensation }) => compensation.halfBus);
	expect(first).toBe(second);
	expect(third).toBe(fourth);
	// the slower filter lags more
	expect(third).toBeGreaterThan(first ?? 0);
	expect(result.slowest).toBeNull();
});

test('an interrupted range names what finished and makes no claim about the slowest speed', async () => {
	const cancel = new AbortController();
	const pool = inlinePool({
		before: (name, from) => {
			if (name === 'unitsOfVariants' && from > 0) cancel.abort();
		},
	});
	const result = await runRangeInPool(
		{
			...base,
			units: 100,
			scenario,
			point: 0,
			axes: [axis('operation.speed', 3000, 6000)],
			signal: cancel.signal,
			shardSize: 10,
		},
		pool,
	);
	expect(result.provenance.partial).toBe(true);
	expect(result.provenance.units).toEqual({ asked: 200, finished: 20, failed: 0 });
	expect(result.slowest).toBeNull();
});

test('drives of a shard that failed count against the requirement at the values they belong to', async () => {
	const pool = inlinePool({
		before: (name, from) => {
			if (name === 'unitsOfVariants' && from === 0) throw new Error('out of memory');
		},
	});
	const result = await runRangeInPool(
		{ ...base, scenario, point: 0, axes: [axis('operation.speed', 5000, 6000)], shardSize: 3 },
		pool,
	);
	// indices 0, 1 and 2: units 0 and 1 at the first value, unit 0 at the second
	expect(result.values.slice(0, 2).map(({ units }) => units)).toEqual([
		{ asked: 12, finished: 10, failed: 2 },
		{ asked: 12, finished: 11, failed: 1 },
	]);
	expect(result.provenance.failures[0]).toEqual({ unit: 0, message: 'out of memory' });
});

test('a value that fails for certain with both choices ends at a look, with the digits of so many drives, for any shards; the others do not', async () => {
	const strict = smallScenario({ requirement: { angleLimit: 6, crossingsPerHour: 1e6, share: 0.8 } });
	const asked = { ...base, scenario: strict, point: 1 };
	// from 12 V the speed's back-EMF is out of reach
	const bus = axis('supply.voltage', 48, 12);
	const result = await runRangeInPool({ ...asked, axes: [bus], units: 130 }, inlinePool());
	expect(result.values.map(({ units }) => units.asked)).toEqual([130, 100]);
	expect(result.values[1]?.choices.halfBus.verdict.decision).toBe('fails');
	expect(result.provenance.units.asked).toBe(230);
	expect(result.sentence).toContain('by 130 drives, the same at all of them, fewer where it fails for certain');
	const [whole, short] = await Promise.all([
		runRangeInPool({ ...asked, axes: [axis('supply.voltage', 48)], units: 130 }, inlinePool()),
		runRangeInPool({ ...asked, axes: [axis('supply.voltage', 12)], units: 100 }, inlinePool()),
	]);
	expect(result.values[0]).toEqual(whole.values[0]);
	expect(result.values[1]).toEqual(short.values[0]);
	const seen: { readonly asked: number; readonly finished: number }[] = [];
	const onProgress = (progress: (typeof seen)[0]): void => void seen.push(progress);
	expect(await runRangeInPool({ ...asked, axes: [bus], units: 130, shardSize: 7, onProgress }, inlinePool())).toEqual(
		result,
	);
	expect(seen.at(-1)).toMatchObject({ asked: 230, finished: 230 });
});
