import { expect, it } from 'vitest';
import { mcnemar } from '../../shared/statistics/mcnemar.ts';

it('12 against 2 is the same whichever is first', () => {
	expect(mcnemar(2, 12)).toEqual(mcnemar(12, 2));
});

it('no unit that differs, or as many either way, gives 1; mid-p never exceeds the exact p', () => {
	expect(mcnemar(0, 0)).toEqual({ exact: 1, midP: 1 });
	expect(mcnemar(4, 4)).toEqual({ exact: 1, midP: 1 });
	for (let b = 0; b < 12; b++)
		for (let c = 0; c < 12; c++) expect(mcnemar(b, c).midP).toBeLessThanOrEqual(mcnemar(b, c).exact);
	expect(() => mcnemar(1.5, 2)).toThrow(RangeError);
});
