import { expect, test } from 'vitest';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { countNames, measureNames } from '../../shared/study/columns.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { smallScenario } from './small-scenario.ts';

const scenario = smallScenario({ requirement: { quantile: '60 %' }, noise: { sigma: '0.1 V' } });
const plan = { scenario, seed: 'shard', compensation: nominalCompensation(scenario).compensation };
const cellsPerUnit = scenario.points.length * 2;

test('unit 3 has the same figures to the last bit alone, in units 0 to 5, and in units 2 to 4', () => {
	const alone = runShard(plan, 3, 4);
	for (const [from, to] of [
		[0, 5],
		[2, 4],
	] as const) {
		const { columns } = runShard(plan, from, to);
		for (const name of [...countNames, ...measureNames]) {
			const at = (3 - from) * cellsPerUnit;
			expect(columns[name].subarray(at, at + cellsPerUnit), name).toEqual(alone.columns[name]);
		}
	}
});

test("a unit's columns are what its runs, simulated one by one, add up to", () => {
	const { columns, histograms } = runShard(plan, 7, 8);
	const errors: number[] = [];
	const late: number[] = [];
	let torque = 0;
	for (const { point, drive, noise } of unitDrives(plan, 7)) {
		if (point !== 1) continue;
		const run = simulatePair(drive, noise, { chances: true }).virtualNeutral;
		errors.push(...run.errors);
		late.push(...(run.chances?.late ?? []));
		torque += run.meanTorque;
	}
	const cell = 1 * 2 + 1;
	expect(columns.runs[cell]).toBe(2);
	expect(columns.sectors[cell]).toBe(24);
	expect(errors).toHaveLength(24);
	expect(columns.errorSum[cell]).toBeCloseTo(
		errors.reduce((sum, error) => sum + error, 0),
		10,
	);
	expect(columns.torqueSum[cell]).toBe(torque);
	const sorted = errors.map(Math.abs).sort((a, b) => a - b);
	// median-unbiased: place (24 + 1/3)·0.95 + 1/3 = 23.45 from 1
	expect(columns.unitError[cell]).toBeCloseTo((sorted[22] ?? 0) + 0.45 * ((sorted[23] ?? 0) - (sorted[22] ?? 0)), 10);
	// (24 + 1/3)·0.6 + 1/3 = 14.933…
	expect(columns.judgedError[cell]).toBeCloseTo(
		(sorted[13] ?? 0) + (14 / 15) * ((sorted[14] ?? 0) - (sorted[13] ?? 0)),
		10,
	);
	expect(late).toHaveLength(24);
	expect(columns.lateChance[cell]).toBeCloseTo(
		late.reduce((sum, chance) => sum + chance, 0),
		15,
	);
	expect(columns.lateChance[cell]).toBeGreaterThan(0);
	const counted = histograms.subarray(cell * 12000, (cell + 1) * 12000).reduce((sum, count) => sum + count, 0);
	expect(counted).toBe(24);
});

test('a unit whose simulation breaks down half-way is recorded with its message, leaves no trace, and stops no other', () => {
	let runs = 0;
	const faulty = runShard(plan, 0, 3, {
		simulate(drive, noise) {
			runs += 1;
			// 4 runs a unit: the second unit's third run
			if (runs === 7) throw new Error('events without end');
			return simulatePair(drive, noise, { chances: true });
		},
	});
	expect(faulty.failures).toEqual([{ unit: 1, message: 'events without end' }]);
	const sound = runShard(plan, 0, 3);
	for (const name of [...countNames, ...measureNames]) {
		expect(faulty.columns[name].subarray(cellsPerUnit, 2 * cellsPerUnit), name).toEqual(
			sound.columns[name].slice(cellsPerUnit, 2 * cellsPerUnit).fill(0),
		);
		for (const unit of [0, 2]) {
			const [from, to] = [unit * cellsPerUnit, (unit + 1) * cellsPerUnit];
			expect(faulty.columns[name].subarray(from, to), name).toEqual(sound.columns[name].subarray(from, to));
		}
	}
	const total = (counts: ArrayLike<number>): number => Array.from(counts).reduce((sum, count) => sum + count, 0);
	const sectors = total(faulty.columns.sectors);
	expect(sectors).toBe(2 * cellsPerUnit * 24);
	expect(total(faulty.histograms)).toBe(sectors);
});

test('a unit with one lost run of two has an infinite unit figure', () => {
	let runs = 0;
	const { columns } = runShard(plan, 0, 1, {
		simulate(drive, noise) {
			runs += 1;
			const pair = simulatePair(drive, noise, { chances: true });
			return runs === 1 ? { ...pair, halfBus: { ...pair.halfBus, lost: true } } : pair;
		},
	});
	expect(columns.unitError[0]).toBe(Infinity);
	expect(columns.unitError[1]).toBeLessThan(60);
	expect(columns.lost[0]).toBe(1);
});

test('progress names the units done after every run and ends with all of them', () => {
	const seen: number[] = [];
	runShard(plan, 10, 12, { onProgress: (done) => seen.push(done) });
	expect(seen).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 1, 2]);
});
