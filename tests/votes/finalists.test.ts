import { describe, expect, it, test } from 'vitest';
import { equalNoise } from '../../shared/votes/equal-noise.ts';
import { finalists } from '../../shared/votes/finalists.ts';
import { tighterResistors } from '../../shared/votes/tighter-resistors.ts';
import type { CellFigures } from '../../shared/votes/votes-result.ts';
import { smallScenario } from '../study/small-scenario.ts';

const cell = (votes: number, window: number, passing: number, all: number, after: number): CellFigures => ({
	votes,
	window,
	sigma: 0.01,
	compensation: 0,
	crossingsPerHour: { early: all, late: 0, missed: 0, all },
	withinRate: passing,
	withinAngle: passing,
	passing,
	acceptsAfter: [after / 2, after],
});
const judged = { units: 100, notSimulated: 0 };
const requirement = { share: 0.9, confidence: 0.95, crossingsPerHour: 1e-6 };
const own = { votes: 2, window: 3 };

describe('finalists', () => {
	it('are the filter stated, the one most drives pass with, and the quickest that holds', () => {
		const cells = [cell(1, 1, 60, 1, 1), cell(2, 2, 97, 1e-3, 2), cell(2, 3, 95, 1e-2, 3), cell(5, 5, 99, 1e-9, 9)];
		expect(finalists(cells, own, judged, requirement)).toEqual([
			{ ...own, reasons: ['as stated'], predicted: 1e-2 },
			{ votes: 5, window: 5, reasons: ['most drives pass'], predicted: 1e-9 },
			{ votes: 2, window: 2, reasons: ['least delay that holds'], predicted: 1e-3 },
		]);
	});

	it('one that is all of it is simulated once', () => {
		expect(finalists([cell(1, 1, 50, 1, 1), cell(2, 3, 99, 1e-3, 3)], own, judged, requirement)).toEqual([
			{ ...own, reasons: ['as stated', 'most drives pass', 'least delay that holds'], predicted: 1e-3 },
		]);
	});

	it('rates below the least that is printed are alike: the earlier acceptance decides', () => {
		const found = finalists([cell(2, 3, 100, 1e-30, 3), cell(1, 1, 100, 1e-25, 1)], own, judged, requirement);
		expect(found[1]).toMatchObject({ votes: 1, reasons: ['most drives pass', 'least delay that holds'] });
	});

	it('rates that print alike are alike too: a hair fewer wrong crossings is no reason to accept later', () => {
		const found = finalists([cell(2, 5, 93, 1.101e-7, 5), cell(1, 1, 93, 1.104e-7, 2)], own, judged, requirement);
		expect(found[0]).toMatchObject({ votes: 1, reasons: ['most drives pass'] });
		const better = finalists([cell(2, 5, 93, 0.9e-7, 5), cell(1, 1, 93, 1.1e-7, 2)], own, judged, requirement);
		expect(better[0]).toMatchObject({ votes: 2 });
	});

	it('rates below a thousandth of the hourly limit decide nothing: the earlier acceptance does', () => {
		const cells = [cell(2, 5, 93, 1e-12, 5), cell(1, 1, 93, 9e-10, 2)];
		expect(finalists(cells, own, judged, requirement)[0]).toMatchObject({ votes: 1, reasons: ['most drives pass'] });
	});

	it('drives that could not be simulated keep a filter from holding', () => {
		const cells = [cell(2, 3, 97, 1e-3, 3)];
		expect(finalists(cells, own, { units: 97, notSimulated: 20 }, requirement)[0]?.reasons).not.toContain(
			'least delay that holds',
		);
	});
});

test('equal noise: on a power law of noise the interpolation is exact, and beyond the steps there is none', () => {
	const steps = [1, 0.7, 0.5].map((sigma) => ({ sigma, perHour: sigma ** 6 }));
	expect(equalNoise(steps, 0.6 ** 6)).toBeCloseTo(0.6, 12);
	expect(equalNoise(steps, 1)).toBeCloseTo(1, 12);
	expect(equalNoise(steps, 2)).toBeNull();
	// the louder of two steps that make as many
	expect(
		equalNoise(
			[1, 0.5].map((sigma) => ({ sigma, perHour: 3 })),
			3,
		),
	).toBe(1);
	expect(equalNoise(steps, 0.4 ** 6)).toBeNull();
	expect(
		equalNoise(
			[
				{ sigma: 1, perHour: 1 },
				{ sigma: 0.5, perHour: 0 },
			],
			0.1,
		),
	).toBeNull();
});

test('tighter resistors: 1 % becomes 0.5 % (IEC 60062), nominal values stay, exact resistors have no grade', () => {
	const scenario = smallScenario({ sensing: { divider: { top: { value: '22k', mismatch: '1 %' } } } });
	const tighter = tighterResistors(scenario);
	expect(tighter?.scenario.tolerances['sensing.divider.top']?.mismatch).toBe(0.005);
	expect(tighter?.scenario.values).toEqual(scenario.values);
	const tolerances = Object.fromEntries(
		Object.entries(scenario.tolerances).map(([id, tolerance]) => [id, { ...tolerance, mismatch: 0 }]),
	);
	expect(tighterResistors({ ...scenario, tolerances })).toBeNull();
	// what was measured is what it is
	const measured = Object.fromEntries(
		Object.entries(scenario.tolerances).map(([id, tolerance]) => [
			id,
			{ ...tolerance, distribution: 'measured' as const, measured: [0, 0.001] },
		]),
	);
	expect(tighterResistors({ ...scenario, tolerances: measured })).toBeNull();
});
