import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isPreferred, nearestPreferred, preferredValues, seriesNames } from '../../shared/parts/preferred-series.ts';

// IEC 60063:2015 by way of a table of preferred values on a radio amateur's page (E6…E24, E48, E96) and a
// recomputation of E192 with an independent library; the standard itself was not read.
const e6 = '1.0 1.5 2.2 3.3 4.7 6.8';
const e12 = '1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2';
const e24 = '1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1';
const e192 = `100 101 102 104 105 106 107 109 110 111 113 114 115 117 118 120 121 123 124 126 127 129 130 132 133 135 137
138 140 142 143 145 147 149 150 152 154 156 158 160 162 164 165 167 169 172 174 176 178 180 182 184 187 189 191 193 196
198 200 203 205 208 210 213 215 218 221 223 226 229 232 234 237 240 243 246 249 252 255 258 261 264 267 271 274 277 280
284 287 291 294 298 301 305 309 312 316 320 324 328 332 336 340 344 348 352 357 361 365 370 374 379 383 388 392 397 402
407 412 417 422 427 432 437 442 448 453 459 464 470 475 481 487 493 499 505 511 517 523 530 536 542 549 556 562 569 576
583 590 597 604 612 619 626 634 642 649 657 665 673 681 690 698 706 715 723 732 741 750 759 768 777 787 796 806 816 825
835 845 856 866 876 887 898 909 920 931 942 953 965 976 988`;
const numbers = (list: string) => list.split(/\s+/).map(Number);

describe('IEC 60063', () => {
	test('E6, E12 and E24 are the printed lists', () => {
		expect(preferredValues('E6')).toEqual(numbers(e6));
		expect(preferredValues('E12')).toEqual(numbers(e12));
		expect(preferredValues('E24')).toEqual(numbers(e24));
	});

	test('E192 is the printed list, 9.20 in place of the rounded 9.19 included', () => {
		expect(preferredValues('E192')).toEqual(numbers(e192).map((v) => v / 100));
	});

	test.each([
		['E48', 48],
		['E96', 96],
		['E192', 192],
	] as const)('%s has %d values', (series, count) => {
		expect(preferredValues(series)).toHaveLength(count);
	});

	test('13 values of E24 are absent from E192', () => {
		expect(preferredValues('E24').filter((v) => !preferredValues('E192').includes(v))).toHaveLength(13);
	});
});

describe('isPreferred and nearestPreferred', () => {
	test.each([
		[22e3, 'E6', true],
		[4.7e-10, 'E12', true],
		[4.7 * 1e-10, 'E12', true],
		[48.7e3, 'E96', true],
		[48.7e3, 'E24', false],
		[4.75e3, 'E96', true],
		[4.7e3, 'E96', false],
		[0, 'E24', false],
		[-22, 'E24', false],
	] as const)('%d in %s: %s', (value, series, made) => {
		expect(isPreferred(value, series)).toBe(made);
	});

	test.each([
		[50e3, 'E12', 47e3],
		[98e3, 'E24', 100e3],
		[9.95, 'E24', 10],
		[50e3, 'E96', 49.9e3],
		[0.047, 'E6', 0.047],
	] as const)('nearest to %d in %s is %d', (value, series, nearest) => {
		expect(nearestPreferred(value, series)).toBe(nearest);
	});

	test('the nearest value is in the series, is its own nearest, and none is nearer', () => {
		fc.assert(
			fc.property(
				fc.double({ min: 1e-12, max: 1e9, noNaN: true }),
				fc.constantFrom(...seriesNames),
				(value, series) => {
					const nearest = nearestPreferred(value, series);
					const apart = (v: number) => Math.max(v / value, value / v);
					expect(isPreferred(nearest, series)).toBe(true);
					expect(nearestPreferred(nearest, series)).toBe(nearest);
					for (const digits of preferredValues(series)) {
						for (const scale of [0.1, 1, 10]) {
							const other = digits * scale * 10 ** Math.floor(Math.log10(value));
							expect(apart(other)).toBeGreaterThanOrEqual(apart(nearest) * (1 - 1e-12));
						}
					}
				},
			),
		);
	});

	test('nothing is near to zero, a negative value or NaN', () => {
		for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
			expect(() => nearestPreferred(value, 'E24')).toThrow(RangeError);
		}
	});
});
