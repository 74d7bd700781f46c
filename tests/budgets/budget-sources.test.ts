import { expect, test } from 'vitest';
import { budgetSources, driveAtSides, oneAtATime, scenarioOfLimits } from '../../shared/budgets/budget-sources.ts';
import type { Tolerance } from '../../shared/parameters/parameter.ts';
import { partsFromUniforms } from '../../shared/sampling/draw-parts.ts';
import { startFromUniforms } from '../../shared/sampling/draw-start.ts';
import type { OperatingPoint, Scenario } from '../../shared/scenario/scenario.ts';
import { oneSpeed } from '../origins/one-speed.ts';

const id = 'sensing.comparator.offset';
const withOffset = (changes: Partial<Tolerance>): Scenario => {
	const scenario = oneSpeed({});
	const tolerance = { ...(scenario.tolerances[id] as Tolerance), mismatch: 0.006, ...changes };
	return { ...scenario, tolerances: { ...scenario.tolerances, [id]: tolerance } };
};
const offsetsAt = (scenario: Scenario, sides: readonly (-1 | 0 | 1)[]): readonly number[] => {
	const drive = driveAtSides(budgetSources(scenario, 0), sides);
	return partsFromUniforms(scenarioOfLimits(scenario), drive.parts)[id] as readonly number[];
};

test('sides −1, 0 and +1 are the lower limit, the nominal value and the upper limit, whatever the distribution', () => {
	for (const changes of [
		{},
		{ distribution: 'normal' },
		{ distribution: 'triangular' },
		{ distribution: 'gapped', gap: 0.002 },
	] as const) {
		const [a = 1, b = 1, c = 1] = offsetsAt(withOffset(changes), [-1, 0, 1]);
		expect(a).toBeCloseTo(-0.006, 12);
		expect(b).toBe(0);
		expect(c).toBeCloseTo(0.006, 12);
	}
});

test('measured parts have their least, their median and their largest value', () => {
	const scenario = withOffset({ distribution: 'measured', measured: [0.004, 0.001, 0.002] });
	expect(offsetsAt(scenario, [-1, 0, 1])).toEqual([0.001, 0.002, 0.004]);
});

test('standard deviations in half-widths: 1/√3 uniform, 1/√6 triangular, .98658/3 normal cut off at 3 σ', () => {
	// half-width 1: JCGM 101 (recomputed); cut-off normal: sd √(1 − 2kφ(k)/(2Φ(k) − 1)) at k = 3 (recomputed)
	for (const [distribution, sd] of [
		['uniform', 0.5773502692],
		['triangular', 0.4082482905],
		['normal', 0.9865783926 / 3],
	] as const) {
		const [source] = budgetSources(withOffset({ distribution }), 0);
		expect(Math.abs((source?.sdInHalfWidths ?? 0) - sd)).toBeLessThan(1e-4);
	}
	const [measured] = budgetSources(withOffset({ distribution: 'measured', measured: [0, 1] }), 0);
	expect(measured?.sdInHalfWidths).toBeCloseTo(1, 6);
});

test('a gap belongs to what is picked out part by part, to the lot only where nothing else varies', () => {
	// half-width 1 with the inner half gone: 3.764869/9 (integrated numerically, as in tests/sampling/draws.test.ts)
	const deviations = (mismatch: number) =>
		budgetSources(withOffset({ distribution: 'gapped', lot: 0.002, gap: 0.001, mismatch }), 0).map(
			({ sdInHalfWidths }) => sdInHalfWidths,
		);
	const [gapped, whole] = [Math.sqrt(3.764869 / 9), 0.9865783926 / 3].map((sd) => expect.closeTo(sd, 3));
	expect(deviations(0)).toEqual([gapped]);
	expect(deviations(0.002)).toEqual([whole, gapped, gapped, gapped]);
});

test('a lot and each part of it are sources of their own, and a condition with a range is one', () => {
	const scenario = withOffset({ lot: 0.001 });
	const point: OperatingPoint = {
		...(scenario.points[0] as OperatingPoint),
		ranges: { 'supply.voltage': { scale: 'relative', halfWidth: 0.05 } },
	};
	const sources = budgetSources({ ...scenario, points: [point] }, 0);
	expect(sources.map(({ name }) => name)).toEqual([
		'comparator offset, common',
		'comparator offset a',
		'comparator offset b',
		'comparator offset c',
		'bus voltage',
	]);
	const { start } = driveAtSides(sources, [0, 0, 0, 0, -1]);
	expect(startFromUniforms(point, start).conditions['supply.voltage']).toBeCloseTo(24 * 0.95, 10);
});

test('one at a time: the middle drive first, then each source alone at both limits', () => {
	const scenario = withOffset({});
	const drives = oneAtATime(budgetSources(scenario, 0));
	expect(drives).toHaveLength(7);
	const offsets = drives.map(({ parts }) => partsFromUniforms(scenarioOfLimits(scenario), parts)[id] as number[]);
	expect(offsets.map((one) => one.filter((offset) => offset !== 0).length)).toEqual([0, 1, 1, 1, 1, 1, 1]);
	expect(offsets[3]?.[1]).toBeCloseTo(-0.006, 12);
	expect(offsets[4]?.[1]).toBeCloseTo(0.006, 12);
});
