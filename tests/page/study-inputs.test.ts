import { expect, test } from 'vitest';
import { inputProblem, readSeed, readUnits } from '../../src/page/model/study-inputs.ts';

test('1000, " 1 000 " and "10,000" are numbers of drives', () => {
	expect(readUnits('1000')).toEqual({ value: 1000 });
	expect(readUnits(' 1 000 ')).toEqual({ value: 1000 });
	expect(readUnits('10,000')).toEqual({ value: 10_000 });
});

test.each(['', '0', '-3', '12.5', '1e3', 'many', '1 000 001', '1,00'])(
	'“%s” drives is refused with the range in words',
	(typed) => {
		expect(inputProblem(readUnits(typed))).toMatch(/a whole number from 1 to 1 000 000/);
	},
);

test('a seed is any text of up to 200 characters; none is refused', () => {
	expect(readSeed(' demo ')).toEqual({ value: 'demo' });
	expect(inputProblem(readSeed('  '))).toMatch(/any word or number/);
	expect(inputProblem(readSeed('x'.repeat(201)))).toMatch(/at most 200/);
});
