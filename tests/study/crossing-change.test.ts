import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { ratioOfSums } from '../../shared/statistics/ratio-of-sums.ts';
import type { CountName, MeasureName } from '../../shared/study/columns.ts';
import { crossingChange } from '../../shared/study/crossing-change.ts';
import { emptyStudy } from '../../shared/study/merge.ts';
import { planOf } from '../page/engine-services.ts';
import { smallScenario } from './small-scenario.ts';

const units = 400;
const plan = planOf(smallScenario());
const finished = Uint32Array.from({ length: units }, (_, unit) => unit);
const options = { choice: 0, level: 0.95, paired: true };

/** A study of which only what is asked here is filled in: 100 sectors a unit and point, half-bus. */
function side(values: Partial<Record<CountName | MeasureName, (unit: number) => number>>) {
	const study = emptyStudy(units, plan.scenario.points.length);
	const perUnit = plan.scenario.points.length * choiceNames.length;
	for (const [name, value] of Object.entries({ sectors: () => 100, ...values })) {
		for (let unit = 0; unit < units; unit += 1) study.columns[name as CountName][unit * perUnit] = value(unit);
	}
	return { plan, study, point: 0, finished };
}

test('chances doubled on every drive double the hourly rate, and limits keep to that change where all drives share it', () => {
	const chance = (unit: number): number => 1e-9 * (1 + (unit % 7) / 7);
	const change = crossingChange(
		side({ earlyChance: chance }),
		side({ earlyChance: (unit) => 2 * chance(unit) }),
		options,
	);
	expect(change?.by).toBe('computed');
	expect((change?.after ?? 0) / (change?.before ?? 1)).toBeCloseTo(2, 12);
	expect(change?.low).toBeGreaterThan(0.9 * (change?.change ?? 0));
	expect(change?.high).toBeLessThan(1.1 * (change?.change ?? 0));
});

test('chances of 1e-200, whose squares vanish, still have their change', () => {
	const chance = (unit: number): number => 1e-200 * (1 + (unit % 3));
	const change = crossingChange(
		side({ missedChance: chance }),
		side({ missedChance: (unit) => 3 * chance(unit) }),
		options,
	);
	expect((change?.after ?? 0) / (change?.before ?? 1)).toBeCloseTo(3, 12);
	expect(change?.low).toBeGreaterThan(0);
});

test('where one drive of 400 carries the rate no limits are given', () => {
	const one = (unit: number): number => (unit === 17 ? 1e-3 : 1e-9);
	const change = crossingChange(side({ earlyChance: one }), side({ earlyChance: one }), options);
	expect(change).toMatchObject({ by: 'computed', change: 0, low: -Infinity, high: Infinity });
});

test('at half the speed the same chances a sector are half the rate, with limits as wide as half of the rate is unsure', () => {
	const chance = (unit: number): number => 1e-9 * (1 + (unit % 7));
	const values = { earlyChance: chance };
	const own = side(values);
	const scenario = {
		...own.plan.scenario,
		points: own.plan.scenario.points.map((point, place) =>
			place === 0
				? { ...point, values: { ...point.values, 'operation.speed': (point.values['operation.speed'] as number) / 2 } }
				: point,
		),
	};
	const after = { ...side(values), plan: { ...own.plan, scenario } };
	const change = crossingChange(own, after, options) ?? expect.unreachable();
	expect(change.change / change.before).toBeCloseTo(-0.5, 12);
	const chances = Array.from({ length: units }, (_, unit) => chance(unit));
	const { low, high, ratio } = ratioOfSums(
		chances.map((one) => one * 1e9),
		chances.map(() => 100),
	);
	// one sample behind both: half of the rate's own limits, the other way round
	expect(change.low / change.before).toBeCloseTo((-0.5 * high) / ratio, 4);
	expect(change.high / change.before).toBeCloseTo((-0.5 * low) / ratio, 4);
});

test('without chances the counts are compared; where one side saw none there is nothing to state', () => {
	const none = { earlyChance: () => -1, lateChance: () => -1, missedChance: () => -1 };
	const seen = side({ ...none, early: (unit) => (unit % 10 === 0 ? 1 : 0) });
	const more = side({ ...none, early: (unit) => (unit % 5 === 0 ? 1 : 0) });
	const change = crossingChange(seen, more, options);
	expect(change?.by).toBe('counted');
	expect((change?.after ?? 0) / (change?.before ?? 1)).toBeCloseTo(2, 12);
	expect(crossingChange(side(none), more, options)).toBeNull();
});

test('one computed drive on either side has no spread, and so no change is stated', () => {
	const [few, many] = [side({ earlyChance: () => 1e-9 }), side({ earlyChance: () => 2e-9 })];
	const apart = { ...options, paired: false };
	const one = { ...few, finished: finished.subarray(0, 1) };
	expect(crossingChange(one, many, apart)).toBeNull();
	expect(crossingChange(many, one, apart)).toBeNull();
	expect(crossingChange(few, many, apart)).not.toBeNull();
});
