import { expect, test } from 'vitest';
import { unitsNeeded } from '../../shared/statistics/units-needed.ts';

test('finds the number that decides, to 1 % of the total, whatever it started from', () => {
	for (const [units, enough] of [
		[100, 101],
		[100, 4_321],
		[1, 99_999],
		[0, 7],
		[30_000, 30_500],
	] as const) {
		const more = unitsNeeded(units, (total) => total >= enough);
		expect(units + (more ?? 0)).toBeGreaterThanOrEqual(enough);
		expect(units + (more ?? 0)).toBeLessThanOrEqual(enough * 1.011 + 1);
	}
});

test('asks for one more where so many already decide, and for none where no number within 10⁸ would', () => {
	expect(unitsNeeded(200, () => true)).toBe(1);
	expect(unitsNeeded(200, () => false)).toBeNull();
	expect(unitsNeeded(200, (total) => total >= 1e12)).toBeNull();
});
