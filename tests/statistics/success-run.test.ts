import { expect, it } from 'vitest';
import { clopperPearsonLower } from '../../shared/statistics/clopper-pearson.ts';
import { successRunShare, successRunUnits } from '../../shared/statistics/success-run.ts';

it('the share shown by 59 units is the exact lower limit of 59 of 59, and of 0 units nothing', () => {
	expect(successRunShare(59, 0.95)).toBeCloseTo(clopperPearsonLower(59, 59, 0.95), 13);
	expect(successRunShare(0, 0.95)).toBe(0);
});

it('takes exact powers without one unit too many, and refuses shares of 0 or 1', () => {
	expect(successRunUnits(0.5, 0.75)).toBe(2);
	expect(successRunUnits(0.5, 0.875)).toBe(3);
	expect(() => successRunUnits(1, 0.95)).toThrow(RangeError);
	expect(() => successRunUnits(0.9, 0)).toThrow(RangeError);
});
