import { expect, test } from 'vitest';
import { originsChange } from '../../shared/origins/origins-change.ts';
import type { OriginsResult } from '../../shared/origins/origins-result.ts';
import { originsShape } from '../../shared/results/origins-shape.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { runOriginsInPool } from '../../src/host/run-origins.ts';
import { gradeScenario } from '../grades/grade-scenario.ts';
import { inlinePool } from '../grades/inline-pool.ts';

const before = gradeScenario();
const star = before.tolerances['sensing.virtualNeutral.star'];
if (!star) throw new Error('the star has no tolerance');
const after: Scenario = {
	...before,
	tolerances: { ...before.tolerances, 'sensing.virtualNeutral.star': { ...star, mismatch: 5 * star.mismatch } },
};
const originsOf = (scenario: Scenario, rows: number, seed = 'few') =>
	runOriginsInPool({ scenario, point: 0, seed, rows, units: 0 }, inlinePool());
const width = ({ low, high }: { readonly low: number; readonly high: number }): number => high - low;

test('a star five times as wide widens the virtual neutral for certain and leaves the half-bus as it was to the last bit', async () => {
	const [was, is] = [await originsOf(before, 24), await originsOf(after, 24)];
	const { virtualNeutral } = was.choices;
	const squares = virtualNeutral.squares ?? [];
	expect(squares).toHaveLength(24);
	const mean = squares.reduce((sum, square) => sum + square, 0) / squares.length;
	expect(Math.sqrt(mean) / virtualNeutral.spread).toBeCloseTo(1, 3);

	const wider = originsChange(was, is, 'virtualNeutral');
	expect(wider.change).toBe(is.choices.virtualNeutral.spread - virtualNeutral.spread);
	expect(wider.low).toBeGreaterThan(0);
	expect(wider.high).toBeGreaterThan(wider.change);
	expect(originsChange(was, is, 'halfBus')).toMatchObject({ change: 0 });
	expect(width(originsChange(was, is, 'halfBus'))).toBeLessThan(1e-7);

	// the same figures of other draws: nothing is in common
	const other = { ...was, provenance: { ...was.provenance, seed: 'other' } };
	expect(width(originsChange(other, is, 'halfBus'))).toBeGreaterThan(0.1 * was.choices.halfBus.spread);
});

test('a result of version 1, or of fewer than 20 whole rows, has its change told without limits', async () => {
	const [was, few] = [await originsOf(before, 24), await originsOf(before, 19)];
	const { squares: _, ...older } = was.choices.halfBus;
	const versionOne: OriginsResult = { ...was, formatVersion: 1, choices: { ...was.choices, halfBus: older } };
	const open = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
	expect(originsChange(versionOne, was, 'halfBus')).toMatchObject({ change: 0, ...open });
	expect(originsChange(few, was, 'virtualNeutral')).toMatchObject(open);
	// both are read where answers are kept
	for (const kept of [versionOne, was, few]) expect(originsShape(structuredClone(kept), '')).toBeNull();
});
