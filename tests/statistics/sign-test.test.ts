import { expect, it } from 'vitest';
import { signTest } from '../../shared/statistics/sign-test.ts';

it('121 against 59 is p = 4.43445e-6, 12 against 2 is p = 0.0129395', () => {
	// exact McNemar figures, which are sign tests (101/121/59/33; Armitage and Berry 1994, p. 127), recomputed
	expect(signTest(121, 59) / 4.43445e-6).toBeCloseTo(1, 5);
	expect(signTest(2, 12)).toBeCloseTo(0.0129395, 7);
});

it('six of six is 2/64; no pairs or an even split give 1', () => {
	expect(signTest(6, 0)).toBeCloseTo(2 / 64, 15);
	expect(signTest(0, 0)).toBe(1);
	expect(signTest(5, 5)).toBe(1);
	expect(signTest(5, 4)).toBe(1);
	expect(() => signTest(-1, 4)).toThrow(RangeError);
});
