import { expect, it } from 'vitest';
import { clopperPearsonLower } from '../../shared/statistics/clopper-pearson.ts';
import { successRunShare, successRunUnits } from '../../shared/statistics/success-run.ts';

// 22 (90 % with 90 %) and 59 (95 % with 95 %) are published figures; the rest recomputed
it.each([
	[0.9, [11, 22, 45, 230, 460, 2302]],
	[0.95, [14, 29, 59, 299, 598, 2995]],
	[0.99, [21, 44, 90, 459, 919, 4603]],
] as const)(
	'with confidence %s shares of .80 .90 .95 .99 .995 .999 take %s units without a failure',
	(confidence, units) => {
		expect([0.8, 0.9, 0.95, 0.99, 0.995, 0.999].map((share) => successRunUnits(share, confidence))).toEqual(units);
	},
);

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
