import { expect, it } from 'vitest';
import { rankCorrelation } from '../../shared/statistics/rank-correlation.ts';

it('is 1 for any rising relation, lost units last; NaN where a side is all ties or too short', () => {
	expect(rankCorrelation([1, 2, 3, Infinity], [1, 8, 27, 1e9])).toBeCloseTo(1, 14);
	for (const n of [3, 7, 1000]) {
		const ties = Array.from({ length: n }, () => 0.3);
		expect(rankCorrelation(ties, Array.from(ties.keys()))).toBeNaN();
		expect(rankCorrelation(Array.from(ties.keys()), ties)).toBeNaN();
		expect(rankCorrelation(ties, ties)).toBeNaN();
	}
	expect(rankCorrelation([1], [1])).toBeNaN();
	expect(() => rankCorrelation([1, Number.NaN], [1, 2])).toThrow(RangeError);
	expect(() => rankCorrelation([1, 2], [1])).toThrow(RangeError);
});

it('ranks values in any order, by hand: Σd² = 6 of four pairs is 1 − 6·6/(4·15) = 0.4; ties share ranks 2 and 3', () => {
	expect(rankCorrelation([30, 10, 20, 40], [2, 1, 4, 3])).toBeCloseTo(0.4, 14);
	// ranks 2.5, 1, 2.5, 4 against 4, 1, 2, 3: Σ = 3, √(4.5·5)
	expect(rankCorrelation([2, 1, 2, 3], [8, 5, 6, 7])).toBeCloseTo(3 / Math.sqrt(22.5), 14);
});
