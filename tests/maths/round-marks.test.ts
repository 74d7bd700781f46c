import { expect, test } from 'vitest';
import { roundMarks } from '../../shared/maths/round-marks.ts';

test('marks are multiples of 1, 2 or 5 times a power of ten', () => {
	expect(roundMarks(10.1, 19.9, 5)).toEqual([12, 14, 16, 18]);
	expect(roundMarks(0, 10, 2)).toEqual([0, 5, 10]);
	expect(roundMarks(-0.55, 0.32, 3)).toEqual([-0.5, 0]);
});

test('where a step would give one mark or none, a finer one gives at least two', () => {
	// a step of 100 would leave 100 alone, one of 0.5 leaves 2 alone
	expect(roundMarks(33, 135, 2)).toEqual([50, 100]);
	expect(roundMarks(1.55, 2.45, 2)).toEqual([1.6, 1.8, 2, 2.2, 2.4].map((mark) => expect.closeTo(mark, 12)));
	expect([roundMarks(3, 3, 2), roundMarks(Number.NaN, 1, 2)]).toEqual([[], []]);
	expect(roundMarks(33, 48, 1).length).toBeGreaterThanOrEqual(2);
});
