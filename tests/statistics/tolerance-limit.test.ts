import { expect, it } from 'vitest';
import { toleranceLimitUnits } from '../../shared/statistics/tolerance-limit.ts';

// S. S. Wilks 1941: published figures quoted, recomputed
it.each([
	['one-sided 95 %/95 %, ranks 1 to 6', 0.95, 0.95, [1, 2, 3, 4, 5, 6], [59, 93, 124, 153, 181, 208]],
	['two-sided 95 %/95 %, ranks 1 to 4', 0.95, 0.95, [2, 4, 6, 8], [93, 153, 208, 260]],
	['one-sided, cover 95 %, confidence 99 %', 0.95, 0.99, [1, 2, 3], [90, 130, 165]],
	['one-sided, cover 99 %, confidence 95 %', 0.99, 0.95, [1, 2, 3], [299, 473, 628]],
	['two-sided, cover 99 %, confidence 95 %', 0.99, 0.95, [2, 4], [473, 773]],
	['two-sided, cover 90 %, confidence 95 %', 0.9, 0.95, [2], [46]],
])('%s: Wilks', (_, cover, confidence, beyond, units) => {
	expect(beyond.map((k) => toleranceLimitUnits(cover, confidence, k))).toEqual(units);
});

it('refuses to cover everything', () => {
	expect(() => toleranceLimitUnits(1, 0.95)).toThrow(RangeError);
	expect(() => toleranceLimitUnits(0.95, 0.95, 0)).toThrow(RangeError);
});
