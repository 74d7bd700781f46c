import { expect, test } from 'vitest';
import { emptyStudy } from '../../shared/study/merge.ts';
import { pointChange } from '../../shared/study/point-change.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { changedDrives } from '../../shared/words/change.ts';
import { planOf, simulated } from '../page/engine-services.ts';
import { smallScenario } from './small-scenario.ts';

const surroundings = { scenarioDigest: '', resultDigest: '', partial: false, warnings: [] };
const units = 60;
const before = simulated(planOf(smallScenario()), units);
const wrongDivider = { sensing: { divider: { top: '24k' } } };
const after = simulated(planOf(smallScenario(wrongDivider)), units);

test('a study against itself has changed by nothing, and says so', () => {
	const change = pointChange({ record: before, point: 0 }, { record: before, point: 0 });
	expect(change).toMatchObject({ units, paired: true });
	expect(change?.choices.halfBus.typical).toMatchObject({ change: 0 });
	expect(change?.choices.halfBus.passing).toMatchObject({ change: 0 });
	expect(change?.gap.change).toBe(0);
});

test('24 kΩ where the thresholds are made for 22 kΩ makes the median drive worse with both choices, beyond doubt', () => {
	const change = pointChange({ record: before, point: 0 }, { record: after, point: 0 });
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const { typical } = change?.choices[choice] ?? {};
		expect(typical?.change).toBeGreaterThan(0);
		expect(typical?.low).toBeGreaterThan(0);
		expect(typical?.change).toBeCloseTo((typical?.after ?? 0) - (typical?.before ?? 0), 12);
	}
});

test('other units of another seed are compared as that: not paired, with a wider interval', () => {
	const slight = smallScenario({ noise: { sigma: '5 mV' } });
	const same = pointChange({ record: before, point: 0 }, { record: simulated(planOf(slight), units), point: 0 });
	const others = simulated(planOf(slight, 'other'), units);
	const apart = pointChange({ record: before, point: 0 }, { record: others, point: 0 });
	expect(same?.paired).toBe(true);
	expect(apart?.paired).toBe(false);
	const width = (change: typeof same): number =>
		(change?.choices.halfBus.typical.high ?? 0) - (change?.choices.halfBus.typical.low ?? 0);
	expect(width(apart)).toBeGreaterThan(1.5 * width(same));
});

test('of other units all are compared, however many either side has: figures are each study’s own', () => {
	const more = simulated(planOf(smallScenario(wrongDivider), 'other'), units + 20);
	const change = pointChange({ record: before, point: 0 }, { record: more, point: 0 });
	expect(change).toMatchObject({ paired: false, units, unitsAfter: units + 20 });
	const median = (record: typeof more) => {
		const result = summarise(record.plan, record.study, surroundings);
		return result.points[0]?.choices.halfBus.unitError.median;
	};
	expect(change?.choices.halfBus.typical).toMatchObject({ before: median(before), after: median(more) });
	expect(changedDrives(change as NonNullable<typeof change>)).toBe('60 and 80 drives, not the same');
});

test('8 of 100 drives that pass only after are shown to be more where they are the same drives, and not where they are others', () => {
	const record = (failing: number, seed: string) => {
		const study = emptyStudy(100, 2);
		study.states.fill(1);
		study.columns.sectors.fill(24);
		study.columns.judgedError.fill(Number.POSITIVE_INFINITY, 0, failing * 4);
		return { plan: { ...before.plan, seed }, study };
	};
	const passing = (seed: string) =>
		pointChange({ record: record(10, 'few'), point: 0 }, { record: record(2, seed), point: 0 })?.choices.halfBus
			.passing;
	const [same, others] = [passing('few'), passing('other')];
	for (const change of [same, others]) {
		expect(change).toMatchObject({ before: 0.9, after: 0.98 });
		expect(change?.change).toBeCloseTo(0.08, 12);
	}
	// exact McNemar of 8 against 0: p = 2⁻⁷; square and add needs no pairing to reach wider to both sides
	expect(same?.low).toBeGreaterThan(0.02);
	expect(others?.low).toBeLessThan(same?.low ?? 0);
	expect(others?.high).toBeGreaterThan(same?.high ?? 1);
});

test('only units that both studies have are compared', () => {
	const fewer = simulated(planOf(smallScenario(wrongDivider)), 40);
	expect(pointChange({ record: before, point: 0 }, { record: fewer, point: 0 })?.units).toBe(40);
});

test('a point lifted out of its study has the very same units there: nothing changes against the whole', () => {
	const { scenario, seed, compensation } = before.plan;
	const lifted = simulated(pointPlan(scenario, 1, { seed, compensation }), 20);
	const whole = simulated(before.plan, 20);
	expect(lifted.study.columns.unitError).toEqual(
		whole.study.columns.unitError.filter((_, cell) => Math.floor(cell / 2) % 2 === 1),
	);
});

test('a drive that loses lock with both choices counts as no difference between them: of 3, 1° and one such the gap is 1°', () => {
	const record = { plan: planOf(smallScenario()), study: emptyStudy(3, 2) };
	record.study.states.fill(1);
	const lost = Number.POSITIVE_INFINITY;
	// [unit][point][choice]
	record.study.columns.unitError.set([lost, lost, 0, 0, 3, 2, 0, 0, 6, 3, 0, 0]);
	expect(pointChange({ record, point: 0 }, { record, point: 0 })?.gap).toMatchObject({
		before: 1,
		after: 1,
		change: 0,
	});
});
