import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatQuantity, formatRelative } from '../../shared/parameters/format-quantity.ts';
import type { Unit } from '../../shared/parameters/parameter.ts';
import { parseQuantity } from '../../shared/parameters/quantity.ts';
import { unitSpelling } from '../../shared/parameters/unit-spelling.ts';

const units = Object.keys(unitSpelling) as Unit[];

describe('parseQuantity', () => {
	// Marks as IEC 60062:2016+A1:2019 gives them, by way of an encyclopaedia's table of the code; R4, 4p7 and the rest follow its rule.
	test.each([
		['R47', 'Ω', 0.47],
		['4R7', 'Ω', 4.7],
		['470R', 'Ω', 470],
		['4K7', 'Ω', 4.7e3],
		['4k7', 'Ω', 4.7e3],
		['47K3', 'Ω', 47.3e3],
		['4M7', 'Ω', 4.7e6],
		['p47', 'F', 0.47e-12],
		['4p7', 'F', 4.7e-12],
		['4n7', 'F', 4.7e-9],
		['4u7', 'F', 4.7e-6],
		['470p', 'F', 470e-12],
	] as const)('the mark %s (%s) is %d', (text, unit, value) => {
		expect(parseQuantity(text, unit)).toEqual({ value });
	});

	test.each([
		['22 kΩ', 'Ω', 22e3],
		['22 KΩ', 'Ω', 22e3],
		['22k', 'Ω', 22e3],
		['22 k\u2126', 'Ω', 22e3],
		['0.35 ohm', 'Ω', 0.35],
		['33 kOhm', 'Ω', 33e3],
		['2000 RPM', 'rpm', 2000],
		['470 pF', 'F', 470e-12],
		['75 µs', 's', 75e-6],
		['75 \u03bcs', 's', 75e-6],
		['75us', 's', 75e-6],
		['1.5 ms', 's', 1.5e-3],
		['12 000 rpm', 'rpm', 12_000],
		['12\u202f000\u00a0rpm', 'rpm', 12_000],
		['20 kHz', 'Hz', 20e3],
		['10°', '°', 10],
		['10 deg', '°', 10],
		['9 mN·m', 'N·m', 9e-3],
		['9 mNm', 'N·m', 9e-3],
		['9 mN*m', 'N·m', 9e-3],
		['30 mV·s/rad', 'V·s/rad', 30e-3],
		['2000 rpm', 'rpm', 2000],
		['\u221240 °C', '°C', -40],
		['5 %', '1', 0.05],
		['250 ppm', '1', 250e-6],
		['100 ppm/K', '1/K', 100e-6],
		['0.393 %/K', '1/K', 3.93e-3],
		['1e3', 'Hz', 1000],
		['1.5e-3 s', 's', 1.5e-3],
		['.5 V', 'V', 0.5],
		[0.5, 'V', 0.5],
	] as const)('%s in %s is %d', (text, unit, value) => {
		expect(parseQuantity(text, unit)).toEqual({ value });
	});

	test.each([
		['4,7 kΩ', 'Ω', 'has a comma; write the decimal point as "."'],
		['22 kΩ', 'F', 'is in Ω, which does not fit here; write a value in F, such as 470p or 4.7 nF'],
		['5 %', 'Ω', 'cannot be read'],
		['10 deg', 's', 'is in °'],
		['22 kk', 'Ω', 'cannot be read'],
		['NaN', 'V', 'cannot be read'],
		['Infinity', 'V', 'cannot be read'],
		['1e999 V', 'V', 'too large'],
		['-', 'V', 'cannot be read'],
		['', 'V', 'is empty'],
		[`1${'0'.repeat(60)}`, 'V', 'too long'],
		['0x10', 'V', 'cannot be read'],
		[Number.NaN, 'V', 'not a finite number'],
		[Number.POSITIVE_INFINITY, 'V', 'not a finite number'],
		[true, 'V', 'neither a number nor a text'],
		[null, 'V', 'neither a number nor a text'],
	] as const)('%s in %s is refused in words', (text, unit, words) => {
		const read = parseQuantity(text, unit);
		expect('problem' in read && read.problem).toContain(words);
	});

	test('no text makes it throw or return a number that is not finite', () => {
		fc.assert(
			fc.property(fc.string({ unit: 'binary' }), fc.constantFrom(...units), (text, unit) => {
				const read = parseQuantity(text, unit);
				expect('problem' in read ? read.problem.length > 0 : Number.isFinite(read.value)).toBe(true);
			}),
		);
	});
});

describe('formatQuantity', () => {
	test.each([
		[22e3, 'Ω', '22 kΩ'],
		[470e-12, 'F', '470 pF'],
		[75e-6, 's', '75 µs'],
		[0.35, 'Ω', '350 mΩ'],
		[999.9, 'Hz', '999.9 Hz'],
		[1000, 'Hz', '1 kHz'],
		[-0.05, 'V', '-50 mV'],
		[10, '°', '10°'],
		[2000, 'rpm', '2000 rpm'],
		[200e3, 'rpm', '200\u202f000 rpm'],
		[3930e-6, '1/K', '3930 ppm/K'],
		[0.9, '1', '0.9'],
		[0, 'F', '0 F'],
	] as const)('%d %s is written %s', (value, unit, text) => {
		expect(formatQuantity(value, unit)).toBe(text);
	});

	test('what it writes is read back as the same number to the last bit, in every unit', () => {
		const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0); // −0 is written 0
		fc.assert(
			fc.property(number, fc.constantFrom(...units), (value, unit) => {
				const read = parseQuantity(formatQuantity(value, unit), unit);
				expect('value' in read ? read.value + 0 : read.problem).toBe(value + 0);
			}),
			{ numRuns: 2000 },
		);
	});

	test('a percentage is read back as the same number', () => {
		expect(formatRelative(0.05)).toBe('5 %');
		expect(formatRelative(0.0025)).toBe('0.25 %');
		expect(formatRelative(0)).toBe('0 %');
		expect(formatQuantity(0, '1/K')).toBe('0 ppm/K');
		fc.assert(
			fc.property(fc.double({ min: 1e-6, max: 1e3, noNaN: true }), (value) => {
				expect(parseQuantity(formatRelative(value), '1')).toEqual({ value });
			}),
		);
	});
});
