import { expect, test } from 'vitest';
import { quantity, signedQuantity } from '../../shared/words/quantity.ts';

test('4738.23 Ω is 4.738 kΩ to four digits, and −12.34 mV has a true minus', () => {
	expect([quantity(4738.23, 'Ω'), quantity(-0.012_341, 'V'), signedQuantity(0.5, '°', 3)]).toEqual([
		'4.738\u00a0kΩ',
		'−12.34\u00a0mV',
		'+0.5°',
	]);
});
