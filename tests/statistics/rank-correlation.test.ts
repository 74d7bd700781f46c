import { expect, it } from 'vitest';
import { rankCorrelation } from '../../shared/statistics/rank-correlation.ts';

it('is 1 for any rising relation, lost units last; NaN where a side is all ties or too short', () => {
	expect(rankCorrelation([1, 2, 3, Infinity], [1, 8, 27, 1e9])).toBeCloseTo(1, 14);
	expect(rankCorrelation([1, 1, 1], [1, 2, 3])).toBeNaN();
	expect(rankCorrelation([1], [1])).toBeNaN();
	expect(() => rankCorrelation([1, Number.NaN], [1, 2])).toThrow(RangeError);
	expect(() => rankCorrelation([1, 2], [1])).toThrow(RangeError);
});
