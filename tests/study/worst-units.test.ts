import { expect, test } from 'vitest';
import { emptyStudy } from '../../shared/study/merge.ts';
import { worstUnits } from '../../shared/study/worst-units.ts';

const judge = { shortcoming: () => null, passesPoint: () => true, passes: () => true };

/** Errors of six units at the second of two points, virtual neutral. */
function studyOf(errors: readonly number[]) {
	const study = emptyStudy(errors.length, 2);
	for (const [unit, error] of errors.entries()) study.columns.unitError[(unit * 2 + 1) * 2 + 1] = error;
	return study;
}
const worst = (errors: readonly number[], most: number, finished = errors.map((_, i) => i)) =>
	worstUnits(studyOf(errors), finished, { judge, point: 1, choice: 1, most }).map(({ unit }) => unit);

test('the worst come first, a lost unit before any error, equal ones by their index', () => {
	expect(worst([1, 5, Number.POSITIVE_INFINITY, 5, 0.2, 9], 4)).toEqual([2, 5, 1, 3]);
});

test('units that did not finish are not listed, and fewer than asked for are all there are', () => {
	expect(worst([1, 5, 7], 12, [0, 1])).toEqual([1, 0]);
	expect(worst([], 3)).toEqual([]);
});

test('of 1,000 units the 12 largest errors are listed as a full sort gives them', () => {
	const errors = Array.from({ length: 1000 }, (_, i) => (i * 7919) % 1009);
	const sorted = errors
		.map((error, unit) => ({ error, unit }))
		.sort((a, b) => b.error - a.error || a.unit - b.unit)
		.map(({ unit }) => unit);
	expect(worst(errors, 12)).toEqual(sorted.slice(0, 12));
});
