import { expect, test } from 'vitest';
import { tightestFirst } from '../../shared/grades/grade.ts';
import { readGrades } from '../../shared/grades/read-grades.ts';
import { readOffer } from '../../shared/grades/read-offer.ts';
import { readPrices } from '../../shared/grades/read-prices.ts';

const read = (text: string) => {
	const reading = readGrades(text);
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
	return reading.grades;
};
const problems = (text: string) => {
	const reading = readGrades(text);
	return 'problems' in reading ? reading.problems.map(({ value, message }) => `${value}: ${message}`) : [];
};

test('each tolerance takes its usual series, stated ones stay: 5 % E24, 2 % E48, 1 % E96, 0.5 % and 0.1 % E192', () => {
	expect(
		read('5 %, 2%,1 % , 0.5 %, 0.1 %').map(({ name, lot, mismatch, series }) => [name, lot, mismatch, ...series]),
	).toEqual([
		['5 %', 0, 0.05, 'E24'],
		['2 %', 0, 0.02, 'E48'],
		['1 %', 0, 0.01, 'E96'],
		['0.5 %', 0, 0.005, 'E192'],
		['0.1 %', 0, 0.001, 'E192'],
	]);
	expect(read('1 % E24+E96, 1 % e24, 0.01').map(({ name, series }) => [name, ...series])).toEqual([
		['1 % E24+E96', 'E24', 'E96'],
		['1 % E24', 'E24'],
		['1 %', 'E96'],
	]);
});

test('an array of 1 % absolute and 0.1 % ratio has lot 1 %, mismatch 0.1 % and the series of 1 %', () => {
	expect(read('array 1 %/0.1 %, Array 2 % / 500 ppm E24')).toMatchObject([
		{ name: 'array 1 %/0.1 %', lot: 0.01, mismatch: 0.001, series: ['E96'] },
		{ name: 'array 2 %/0.05 % E24', lot: 0.02, mismatch: 0.0005, series: ['E24'] },
	]);
});

test('loose resistors come first, then arrays, each tightest first by what they are sold under, then by the ratio and the finer series', () => {
	const names = tightestFirst(read('array 5 %/1 %, 5 %, array 1 %/0.5 %, array 1 %/0.1 %, 1 % E24, 0.1 %, 1 %')).map(
		({ name }) => name,
	);
	expect(names).toEqual(['0.1 %', '1 %', '1 % E24', '5 %', 'array 1 %/0.1 %', 'array 1 %/0.5 %', 'array 5 %/1 %']);
});

test('everything wrong with a list is told at once, by entry', () => {
	const found = problems('5 %, , abc, 0 %, 30 %, 5, 1 % E95, array 1 %, 1 %/0.1 %, array 0.1 %/1 %, 5%');
	const joined = found.join('\n');
	for (const words of [
		': an entry is empty',
		'abc: the tolerance cannot be read',
		'0 %: the tolerance must be above 0 and at most 20 %',
		'30 %: the tolerance must be above 0 and at most 20 %',
		'5: the tolerance must be above 0 and at most 20 %; write 5 % for ± 5 %',
		'1 % E95: E95 is no series; known are E6, E12',
		'array 1 %: needs two tolerances',
		'1 %/0.1 %: has two tolerances',
		'array 0.1 %/1 %: the ratio tolerance must not be looser',
		'5%: is the grade 5 % a second time',
	]) {
		expect(joined).toContain(words);
	}
	expect(found).toHaveLength(10);
	expect(read('array 1 %/1 %')).toHaveLength(1);
	expect(read(Array.from({ length: 12 }, (_, i) => `${i + 1} %`).join())).toHaveLength(12);
	expect(problems(Array.from({ length: 13 }, (_, i) => `${i + 1} %`).join()).join()).toContain('at most 12');
});

test('a list that would keep a careless pattern busy is refused at once', () => {
	// a pattern that goes back over every way to split it would take longer than a test may
	expect(problems(`array ${' '.repeat(200)}${'1'.repeat(200)}/`)).not.toHaveLength(0);
});

test('prices go with the grades one to one; what is not a plain number, or one too few, is told', () => {
	expect(readPrices('0.2, .3,5', 3)).toEqual({ prices: [0.2, 0.3, 5] });
	expect(readPrices('0.2, -1, 1e3, , 4', 4)).toMatchObject({
		problems: [
			{ value: '-1', message: expect.stringContaining('plain number') },
			{ value: '1e3' },
			{ value: '' },
			{ message: expect.stringContaining('5 prices for 4 grades') },
		],
	});
	expect(readPrices('1', 2)).toMatchObject({
		problems: [{ message: expect.stringContaining('1 price for 2 grades') }],
	});
});

test('a bad list of grades does not hide that the prices are not as many: all is told at once', () => {
	const offer = readOffer('1 %, abc, 0 %', '0.2, free');
	expect('problems' in offer && offer.problems.map(({ of, value }) => `${of}: ${value}`)).toEqual([
		'grades: abc',
		'grades: 0 %',
		'prices: free',
		'prices: 0.2, free',
	]);
	expect(readOffer('1 %, 5 %', null)).toMatchObject({ grades: [{ price: null }, { price: null }] });
	expect(readOffer('1 %, abc', null)).toMatchObject({ problems: [{ of: 'grades' }] });
	expect(readOffer('1 %, 5 %', '0.2, 0.1')).toMatchObject({ grades: [{ price: 0.2 }, { price: 0.1 }] });
});
