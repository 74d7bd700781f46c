import { expect, test } from 'vitest';
import { pointChange } from '../../shared/study/point-change.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { planOf, simulated } from '../page/engine-services.ts';
import { smallScenario } from './small-scenario.ts';

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
