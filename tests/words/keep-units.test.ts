import { expect, test } from 'vitest';
import { keepUnits } from '../../shared/words/keep-units.ts';

test.each([
	['must be from 10 Ω to 100 MΩ', 'must be from 10\u00a0Ω to 100\u00a0MΩ'],
	['22 kΩ, mismatch 1 %, 30 mV·s/rad, 25 °C', '22\u00a0kΩ, mismatch 1\u00a0%, 30\u00a0mV·s/rad, 25\u00a0°C'],
	['900 rpm, 9 mN·m, 100 ppm/K', '900\u00a0rpm, 9\u00a0mN·m, 100\u00a0ppm/K'],
])('in "%s" no number can be torn from its unit', (text, kept) => {
	expect(keepUnits(text)).toBe(kept);
});

test('a word after a number is no unit: "1 start", "3 Pumps", "2 sectors" break where they did', () => {
	const text = '1 start of 3 Pumps, 2 sectors, 5 As';
	expect(keepUnits(text)).toBe(text);
});
