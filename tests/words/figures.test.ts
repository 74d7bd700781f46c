import { expect, test } from 'vitest';
import {
	chance,
	chancePerHour,
	count,
	degrees,
	enough,
	percent,
	perHour,
	power,
	raised,
	signedDegrees,
	span,
} from '../../shared/words/figures.ts';

/** Breaks are narrow or unbreakable on the page; a plain space reads better here. */
const plain = (text: string): string => text.replace(/[\u202f\u00a0]/g, ' ');

test('five digits and more are set in groups of three, four are not (ISO 80000-1): 1000, 12840, 1234567', () => {
	expect([999, 1000, -9999, 12840, -12840, 1234567].map(count).map(plain)).toEqual([
		'999',
		'1000',
		'−9999',
		'12 840',
		'−12 840',
		'1 234 567',
	]);
});

test('degrees keep 0.01° below 10° and 0.1° from there, also where rounding crosses 10°', () => {
	expect([0, 6.943, -1.2449, 9.994, 9.996, 31.55].map(degrees)).toEqual([
		'0.00°',
		'6.94°',
		'−1.24°',
		'9.99°',
		'10.0°',
		'31.6°',
	]);
});

test('a lateness has a plus, an earliness a true minus, and what rounds to zero neither', () => {
	expect([0.3, -0.3, 0.004, -0.004].map(signedDegrees)).toEqual(['+0.30°', '−0.30°', '0.00°', '0.00°']);
});

test('a share of 3.1 in 10 000 stays visible as 0.03 %, and 1 in a million as a power', () => {
	expect([0, 1, 0.124, 0.00031, 1e-6].map((share) => percent(share)).map(plain)).toEqual([
		'0 %',
		'100 %',
		'12.4 %',
		'0.03 %',
		'1.0 × 10⁻⁴ %',
	]);
});

test('a share of all but 46 in a million keeps one digit of what is missing, 99.1 % and 92.8 % one decimal each', () => {
	expect([0.991, 0.928, 0.9954, 0.99954, 0.999954, Number.NaN].map((share) => plain(percent(share)))).toEqual([
		'99.1 %',
		'92.8 %',
		'99.5 %',
		'99.95 %',
		'99.995 %',
		'unknown',
	]);
});

test('limits are rounded so that they claim no more than was shown, and 95.1 % stays itself', () => {
	expect(plain(percent(0.94999, 'up'))).toBe('95.0 %');
	expect(plain(percent(0.94999, 'down'))).toBe('94.9 %');
	expect([plain(percent(0.951, 'down')), plain(percent(0.951, 'up'))]).toEqual(['95.1 %', '95.1 %']);
	expect(plain(percent(0.999999, 'down'))).toBe('99.9999 %');
	expect(plain(percent(0.99708, 'down'))).toBe('99.7 %');
	expect(plain(percent(1e-6, 'up'))).toBe('0.0001 %');
});

test('a chance of 10⁻¹⁰² or of 0 is told as below 10⁻¹⁸, a ratio of 10⁹⁶ as above 10¹⁸, a count of none as 0', () => {
	expect([plain(chance(5.6e-102)), plain(chance(0)), plain(chance(3.2e-15))]).toEqual([
		'< 10⁻¹⁸',
		'< 10⁻¹⁸',
		'3.2 × 10⁻¹⁵',
	]);
	expect([plain(power(1.9e96)), plain(power(0)), plain(chancePerHour(0)), plain(chancePerHour(1284))]).toEqual([
		'> 10¹⁸',
		'0',
		'< 10⁻¹⁸',
		'1300',
	]);
});

test('where there is no figure a dash stands, and limits that are both a dash or a word stand once', () => {
	expect([degrees, signedDegrees, power, perHour, count].map((words) => words(Number.NaN))).toEqual(Array(5).fill('–'));
	expect([span('–', '–'), span('lock lost', 'lock lost'), span('1 %', '1 %')]).toEqual(['–', 'lock lost', '1 % … 1 %']);
});

test('rates carry two digits and a raised power of ten outside 0.01 … 100', () => {
	expect([0, 3.17e-4, 0.0142, 1, 37, 4.5e6].map(power).map(plain)).toEqual([
		'0',
		'3.2 × 10⁻⁴',
		'0.014',
		'1',
		'37',
		'4.5 × 10⁶',
	]);
	expect(raised(-12)).toBe('⁻¹²');
});

test('events per hour are whole with two digits from 100 on', () => {
	expect([0.0123, 12.6, 1284].map(perHour).map(plain)).toEqual(['0.012', '13', '1300']);
});

test('drives that are enough are never rounded to fewer', () => {
	const words = [1, 9, 11, 99, 101, 298.2, 1101, 9_210_336].map(enough).map(plain);
	expect(words).toEqual(['1', '9', '11', '99', '110', '300', '1200', '9 300 000']);
});
