import { expect, it } from 'vitest';
import { mcnemar } from '../../shared/statistics/mcnemar.ts';

it('121 against 59 gives exact p 4.43445e-6 and mid-p 3.26665e-6', () => {
	// table 101/121/59/33, recomputed
	const { exact, midP } = mcnemar(121, 59);
	expect(exact / 4.43445e-6).toBeCloseTo(1, 5);
	expect(midP / 3.26665e-6).toBeCloseTo(1, 5);
});

it('12 against 2 gives exact p 0.0129395 (Armitage and Berry 1994, p. 127), whichever is first', () => {
	expect(mcnemar(12, 2).exact).toBeCloseTo(0.0129395, 7);
	expect(mcnemar(2, 12)).toEqual(mcnemar(12, 2));
});

it('no unit that differs, or as many either way, gives 1; mid-p never exceeds the exact p', () => {
	expect(mcnemar(0, 0)).toEqual({ exact: 1, midP: 1 });
	expect(mcnemar(4, 4)).toEqual({ exact: 1, midP: 1 });
	for (let b = 0; b < 12; b++)
		for (let c = 0; c < 12; c++) expect(mcnemar(b, c).midP).toBeLessThanOrEqual(mcnemar(b, c).exact);
	expect(() => mcnemar(1.5, 2)).toThrow(RangeError);
});
