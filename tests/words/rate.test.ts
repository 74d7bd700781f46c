import { expect, test } from 'vitest';
import { rateFigure } from '../../shared/study/rate-figure.ts';
import { affectedBound, rateWords } from '../../shared/words/rate.ts';

/** No event in 24 sectors of each of so many units. */
const none = (units: number) =>
	rateFigure(new Float64Array(units), new Float64Array(units).fill(24), { sectorsPerHour: 1, level: 0.95 });

test('a bound on affected drives is never rounded below itself: 5.82 % of 50 drives are told as 5.9 %', () => {
	// 1 − 0.05^(1/50) = 5.816 %, 1 − 0.05^(1/1000) = 0.2991 %
	expect(affectedBound(none(50))).toBe('≤ 5.9\u00a0% of drives');
	expect(rateWords(none(50))).toBe('none seen; at most 5.9\u00a0% of drives affected');
	expect(affectedBound(none(1000))).toBe('≤ 0.3\u00a0% of drives');
});
