import { expect, test } from 'vitest';
import { count, degrees, percent, perHour, power, raised, signedDegrees } from '../../shared/words/figures.ts';

/** Breaks are narrow or unbreakable on the page; a plain space reads better here. */
const plain = (text: string): string => text.replace(/[\u202f\u00a0]/g, ' ');

test('thousands are set apart from four digits on: 1000, 12840 and 1234567', () => {
	expect([999, 1000, 12840, 1234567].map(count).map(plain)).toEqual(['999', '1 000', '12 840', '1 234 567']);
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
	expect([0, 1, 0.124, 0.00031, 1e-6].map(percent).map(plain)).toEqual([
		'0 %',
		'100 %',
		'12.4 %',
		'0.03 %',
		'1.0 × 10⁻⁴ %',
	]);
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
	expect([0.0123, 12.6, 1284].map(perHour).map(plain)).toEqual(['0.012', '13', '1 300']);
});
