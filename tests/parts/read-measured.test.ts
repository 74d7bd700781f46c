import { expect, test } from 'vitest';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import { readMeasured } from '../../shared/parts/read-measured.ts';

const top = parameter('sensing.divider.top') as NumberRecord;

test('one value a line, in any notation of the form, with comments and empty lines left out', () => {
	expect(readMeasured('# bench, 25 °C\n22013\n\n21.98k\r\n22 kΩ\n', top)).toEqual({
		values: [22013, 21980, 22000],
		heading: '',
	});
});

test('of several columns the one headed “value”, the name or the symbol is taken', () => {
	expect(readMeasured('board;value\n1;22k\n2;21k9', top)).toEqual({ values: [22000, 21900], heading: 'value' });
	expect(readMeasured('no,R_top\n1,22010\n2,21990', top)).toEqual({ values: [22010, 21990], heading: 'R_top' });
	expect(readMeasured('serial\t"resistance"\nA1\t"22010"\nA2\t"21990"', top)).toEqual({
		values: [22010, 21990],
		heading: 'resistance',
	});
});

// "R/kΩ": ISO 80000-1, 7.1.4, a quantity divided by its unit heads a column of numerical values; the clause from memory.
test.each(['R_top/kΩ', 'R_top [kΩ]', 'R_top (kΩ)', 'R_top / kohm', 'value [k]'])(
	'plain numbers under “%s” are in that unit, others in their own',
	(heading) => {
		expect(readMeasured(`no,${heading}\n1,22.01\n2,2.199e1\n3,21990 Ω\n4,22k`, top)).toEqual({
			values: [22010, 21990, 21990, 22000],
			heading,
		});
	},
);

test.each(['value (25 °C)', 'value [nF]', 'value/board', 'R()', '/'])('“%s” names no unit of a resistor', (heading) => {
	expect(readMeasured(`${heading}\n22010`, top)).toEqual({ values: [22010], heading });
});

test('two columns of numbers without a telling heading are refused', () => {
	expect(readMeasured('1,22010\n2,21990', top)).toEqual({
		problems: ['2 columns have numbers; head the right one “value”, or write decimals with a point'],
	});
});

test('every wrong line is told with its number, the thirteenth and later ones counted', () => {
	expect(readMeasured('22k\nbroken\n5 V', top)).toEqual({
		problems: [
			'line 2: “broken” cannot be read; write a value in Ω, such as 4k7 or 22 kΩ',
			'line 3: “5 V” is in V, which does not fit here; write a value in Ω, such as 4k7 or 22 kΩ',
		],
	});
	const reading = readMeasured(`22k\n${'x\n'.repeat(20)}`, top);
	expect('problems' in reading && reading.problems.at(-1)).toBe('and 8 further lines');
});

test('nothing, a heading alone, and 10 001 values are refused in words', () => {
	expect(readMeasured('', top)).toEqual({ problems: ['the file has no values'] });
	expect(readMeasured('value\n', top)).toEqual({ problems: ['the file has a heading and no values'] });
	expect(readMeasured('22k\n'.repeat(10_001), top)).toEqual({
		problems: ['the file has 10001 values; at most 10000 are taken'],
	});
});
