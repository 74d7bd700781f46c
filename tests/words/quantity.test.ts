import { expect, test } from 'vitest';
import {
	evenOnScale,
	evenQuantity,
	quantity,
	quantityParts,
	relative,
	signedQuantity,
} from '../../shared/words/quantity.ts';

test('4738.23 Ω is 4.738 kΩ to four digits, and −12.34 mV has a true minus', () => {
	expect([quantity(4738.23, 'Ω'), quantity(-0.012_341, 'V'), signedQuantity(0.5, '°', 3)]).toEqual([
		'4.738\u00a0kΩ',
		'−12.34\u00a0mV',
		'+0.5°',
	]);
});

test('figures in a column keep their last zeros: 43.90 mN·m, 2.000 V; nothing is added to 0', () => {
	expect([
		evenQuantity(0.0439, 'N·m'),
		evenQuantity(2, 'V'),
		evenQuantity(-0.000_25, 'V', 3),
		evenQuantity(0, 'V'),
		evenQuantity(0.010_184, 'N·m'),
	]).toEqual(['43.90\u00a0mN·m', '2.000\u00a0V', '−250\u00a0µV', '0\u00a0V', '10.18\u00a0mN·m']);
});

test('deviations in a column keep their last zeros, in per cent or with their unit', () => {
	expect([evenOnScale('relative', 0.0098, 'Ω', 3), evenOnScale('absolute', 0.0049, 'V', 3)]).toEqual([
		'0.980\u00a0%',
		'4.90\u00a0mV',
	]);
});

test('a speed of five digits is grouped, also in a column, one of four is not, nor are decimals', () => {
	expect([
		quantity(12_000, 'rpm'),
		evenQuantity(12_000, 'rpm'),
		evenQuantity(1500, 'rpm'),
		relative(0.012_345_6),
	]).toEqual(['12\u202f000\u00a0rpm', '12\u202f000\u00a0rpm', '1500\u00a0rpm', '1.23456\u00a0%']);
});

test('number and unit apart: −4.738 and mV, 12 000 and rpm, 25 and °C, 0.05 without a unit; joined they are the quantity', () => {
	expect([
		quantityParts(-0.004_738_23, 'V'),
		quantityParts(12_000, 'rpm'),
		quantityParts(25, '°C'),
		quantityParts(1e-4, '1/K'),
		quantityParts(7.5, '°'),
		quantityParts(0.05, '1'),
	]).toEqual([
		{ number: '−4.738', unit: 'mV' },
		{ number: '12\u202f000', unit: 'rpm' },
		{ number: '25', unit: '°C' },
		{ number: '100', unit: 'ppm/K' },
		{ number: '7.5', unit: '°' },
		{ number: '0.05', unit: '' },
	]);
	expect([quantity(1e-4, '1/K'), quantity(7.5, '°'), quantity(0.05, '1'), quantity(Infinity, 'V')]).toEqual([
		'100\u00a0ppm/K',
		'7.5°',
		'0.05',
		'Infinity',
	]);
});
