import { expect, test } from 'vitest';
import { nextTighterGrade } from '../../shared/parts/tolerance-grades.ts';

// Common practice of the trade: a maker sorts out the tighter grade before selling the looser one.
test.each([
	[0.1, 0.05],
	[0.05, 0.02],
	[0.01, 0.005],
	[0.03, 0.02],
	[0.5, 0.2],
	[1e-4, undefined],
])('the grade picked out of %d is %d', (tolerance, grade) => {
	expect(nextTighterGrade(tolerance)).toBe(grade);
});
