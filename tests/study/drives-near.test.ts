import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { drivesNear } from '../../shared/study/drives-near.ts';
import { emptyStudy, unitStates } from '../../shared/study/merge.ts';

/** Four units at two points; at point 1 with virtual neutral as given here: earliest, mean, latest. */
function study() {
	const made = emptyStudy(5, 2);
	const errors = [
		[-2, 0, 2],
		[-1, 0.1, 1],
		[-6, -0.5, 5],
		[Number.POSITIVE_INFINITY, Number.NaN, Number.NEGATIVE_INFINITY],
	];
	for (const [unit, [earliest = 0, mean = 0, latest = 0]] of errors.entries()) {
		const cell = (unit * 2 + 1) * choiceNames.length + 1;
		made.states[unit] = unitStates.finished;
		made.columns.sectors[cell] = Number.isFinite(mean) ? 24 : 0;
		made.columns.errorSum[cell] = 24 * mean;
		made.columns.lowestError[cell] = earliest;
		made.columns.highestError[cell] = latest;
	}
	return made;
}
const near = (angle: number, most = 9) => drivesNear(study(), { point: 1, choice: 1, angle, most });

test('in a tail the drive that makes it comes first, with the commutation that does', () => {
	expect(near(4.5, 2)).toEqual([
		{ unit: 2, which: 'latest', error: 5 },
		{ unit: 0, which: 'latest', error: 2 },
	]);
	expect(near(-7, 1)).toEqual([{ unit: 2, which: 'earliest', error: -6 }]);
});

test('in the middle the drives whose mean is nearest come first; what was not finished or measured is left out', () => {
	expect(near(0.09).map(({ unit, which }) => `${unit} ${which}`)).toEqual(['1 mean', '0 mean', '2 mean']);
});

test('of equally near drives the one with the smaller index comes first', () => {
	// means 0° and −0.5°, each 0.25° away
	expect(near(-0.25, 2).map(({ unit }) => unit)).toEqual([0, 2]);
	expect(near(-0.25, 1).map(({ unit }) => unit)).toEqual([0]);
});
