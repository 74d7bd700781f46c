import { expect, test } from 'vitest';
import { populationMean } from '../../shared/firmware/point-means.ts';
import { emptyColumns } from '../../shared/study/columns.ts';
import type { StudyColumns } from '../../shared/study/merge.ts';
import { smallScenario } from '../study/small-scenario.ts';

/** Half-bus cells of four units at two points, ten sectors each: mean errors as given, in degrees. */
function studyOf(means: readonly (readonly [number, number])[], lost: readonly number[] = []): StudyColumns {
	const columns = emptyColumns(means.length * 4);
	for (const [unit, ofPoints] of means.entries()) {
		for (const [point, mean] of ofPoints.entries()) {
			const cell = unit * 4 + point * 2;
			columns.sectors[cell] = 10;
			columns.errorSum[cell] = 10 * mean;
			// each commutation a degree to one side or the other of its drive's mean
			columns.errorSquares[cell] = 10 * (mean * mean + 1);
			if (lost.includes(unit) && point === 0) columns.lost[cell] = 1;
		}
	}
	return {
		units: means.length,
		points: 2,
		states: new Uint8Array(means.length).fill(1),
		columns,
		histograms: new Float64Array(0),
		failures: [],
	};
}

const scenario = smallScenario({
	points: [
		{ name: 'often', speed: 6000, torque: 0.05, share: 0.75 },
		{ name: 'seldom', speed: 7000, torque: 0.05, share: 0.25 },
	],
});

test('points count by their share of the hours, and the standard error is that of the drives', () => {
	const { mean, standardError, points } = populationMean(
		scenario,
		studyOf([
			[1, 5],
			[2, 6],
			[3, 7],
			[6, 2],
		]),
		0,
	);
	// drives' own means over the hours: 2, 3, 4, 5
	expect(mean).toBeCloseTo(3.5, 12);
	expect(standardError).toBeCloseTo(Math.sqrt(5 / 3 / 4), 12);
	expect(points[0]).toMatchObject({ name: 'often', weight: 0.75, drives: 4, mean: 3 });
	// 1, 2, 3, 6 about 3: Σ = 14; and of 40 commutations 10 · 14 + 40
	expect(points[0]?.betweenDrives).toBeCloseTo(Math.sqrt(14 / 3), 12);
	expect(points[0]?.ofCommutations).toBeCloseTo(Math.sqrt(180 / 39), 12);
});

test('hours that do not add up to 1 count by their proportion', () => {
	const hours = smallScenario({
		points: [
			{ name: 'often', speed: 6000, torque: 0.05, share: 0.6 },
			{ name: 'seldom', speed: 7000, torque: 0.05, share: 0.2 },
		],
	});
	const { mean, points } = populationMean(hours, studyOf([[1, 5]]), 0);
	expect(points.map(({ weight }) => weight)).toEqual([expect.closeTo(0.75, 12), expect.closeTo(0.25, 12)]);
	expect(mean).toBeCloseTo(2, 12);
});

test('a drive that lost lock at one point is left out there and overall, and counted', () => {
	const { mean, points } = populationMean(
		scenario,
		studyOf(
			[
				[1, 5],
				[2, 6],
				[3, 7],
				[6, 2],
			],
			[3],
		),
		0,
	);
	expect(mean).toBeCloseTo(3, 12);
	expect(points.map(({ drives, lost }) => [drives, lost])).toEqual([
		[3, 1],
		[4, 0],
	]);
});

test('without a drive that keeps lock there is no mean, and no deviation', () => {
	const { mean, standardError, points } = populationMean(scenario, studyOf([[1, 1]], [0]), 0);
	expect([mean, standardError, points[0]?.mean, points[0]?.betweenDrives]).toEqual([NaN, NaN, NaN, NaN]);
});
