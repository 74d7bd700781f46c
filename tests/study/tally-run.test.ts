import { expect, test } from 'vitest';
import type { RunRecord } from '../../shared/drive/drive.ts';
import { emptyColumns } from '../../shared/study/columns.ts';
import { tallyRun } from '../../shared/study/tally-run.ts';

const run = (changes: Partial<RunRecord>): RunRecord => ({
	measured: 0,
	errors: new Float64Array(),
	crossings: new Float64Array(),
	torques: new Float64Array(),
	causes: new Uint8Array(),
	duties: new Float64Array(),
	meanTorque: 0.1,
	torqueNotReached: false,
	lost: false,
	...changes,
});
const rules = { firstSector: 24, falseMargin: 10 };

test('crossing errors of −10.1°, +10.1° and NaN are early, late and missed; ±10° exactly are neither', () => {
	const columns = emptyColumns(1);
	tallyRun(
		columns,
		0,
		run({
			measured: 6,
			errors: Float64Array.of(-5, 5, 1, 0, 0, 2),
			crossings: Float64Array.of(-10.1, 10.1, Number.NaN, -10, 10, 0),
			causes: Uint8Array.of(1, 0, 0, 0, 0, 0),
		}),
		rules,
	);
	const { early, late, missed, freewheel, noise, threshold, sectors } = columns;
	expect([early, late, missed, freewheel, noise, threshold, sectors].map((column) => column[0])).toEqual([
		1, 1, 1, 1, 0, 0, 6,
	]);
	expect(columns.errorSum[0]).toBe(3);
	expect(columns.errorSquares[0]).toBe(55);
	expect([columns.lowestError[0], columns.highestError[0]]).toEqual([-5, 5]);
});

test("sector kinds count on from warm-up and settling: 25 sectors before make the first one b−'s kind 1", () => {
	const columns = emptyColumns(1);
	const measured = {
		measured: 2,
		errors: Float64Array.of(3, 4),
		crossings: Float64Array.of(0, 0),
		causes: new Uint8Array(2),
	};
	tallyRun(columns, 0, run(measured), { ...rules, firstSector: 25 });
	expect([columns.sectors0[0], columns.sectors1[0], columns.sectors2[0]]).toEqual([0, 1, 1]);
	expect([columns.errorSum1[0], columns.errorSum2[0]]).toEqual([3, 4]);
});

test('runs add up in their own cell alone, and a run lost before anything was measured counts', () => {
	const columns = emptyColumns(3);
	const one = { measured: 1, errors: Float64Array.of(7), crossings: Float64Array.of(1), causes: new Uint8Array(1) };
	tallyRun(columns, 1, run({ lost: true }), rules);
	expect([columns.lowestError[1], columns.highestError[1]]).toEqual([Infinity, -Infinity]);
	tallyRun(columns, 1, run({ ...one, torqueNotReached: true }), rules);
	expect([columns.runs[1], columns.lost[1], columns.torqueNotReached[1], columns.sectors[1]]).toEqual([2, 1, 1, 1]);
	expect(columns.torqueSum[1]).toBeCloseTo(0.2, 15);
	expect([columns.lowestError[1], columns.highestError[1]]).toEqual([7, 7]);
	expect([columns.runs[0], columns.runs[2]]).toEqual([0, 0]);
});

test('an angle error that is not a number stops the unit rather than spoil its sums', () => {
	const broken = { measured: 1, errors: Float64Array.of(Number.NaN), crossings: Float64Array.of(0) };
	expect(() => tallyRun(emptyColumns(1), 0, run(broken), rules)).toThrow('sector 0');
});
