import { expect, test } from 'vitest';
import { computedIntervalWords, computedRateRow, computedRows } from '../../shared/study/computed-rows.ts';
import type { ComputedRate } from '../../shared/study/result.ts';

const rate = (over: Partial<ComputedRate> = {}): ComputedRate => ({
	rate: 3.2e-9,
	perHour: 0.014,
	effective: 120,
	largestShare: 0.25,
	largestUnit: 17,
	interval: [1e-9, 6e-9],
	gain: 4e5,
	...over,
});
const both = (halfBus: ComputedRate | null, virtualNeutral: ComputedRate | null) => {
	const all = (one: ComputedRate | null) => ({
		computed: one && { early: one, late: one, missed: one, all: one },
	});
	return { halfBus: all(halfBus), virtualNeutral: all(virtualNeutral) };
};
const printed = (...rates: Parameters<typeof both>): Record<string, readonly string[] | null> =>
	Object.fromEntries(
		computedRows(both(...rates), '95 %').map(({ label, words }) => [
			label,
			words && [words.halfBus, words.virtualNeutral].map((text) => text.replaceAll('\u00a0', ' ')),
		]),
	);

test('a computed rate is printed with its limits, what carries it and what computing gains', () => {
	const few = rate({ effective: 1.25, largestShare: 0.9995, interval: null, gain: null });
	expect(printed(rate(), few)).toEqual({
		'Early, late and missed together, computed': null,
		'per sector': ['3.2 × 10⁻⁹', '3.2 × 10⁻⁹'],
		'95 % interval': ['1.0 × 10⁻⁹ … 6.0 × 10⁻⁹', 'none: under 100 drives'],
		'per operating hour': ['0.014', '0.014'],
		'effective number of drives': ['120', '1.3'],
		"largest drive's share": ['25.0 % (drive 17)', '> 99.9 % (drive 17)'],
		'gain over counting, × drives': ['4.0 × 10⁵', '–'],
	});
});

test('no chance at all has no drive that carries it; a window too long to follow has no chances', () => {
	const nothing = rate({
		rate: 0,
		perHour: 0,
		effective: 0,
		largestShare: Number.NaN,
		largestUnit: null,
		interval: null,
	});
	expect(printed(nothing, null)).toMatchObject({
		'per sector': ['< 10⁻¹⁸', '–'],
		'95 % interval': ['–', '–'],
		'effective number of drives': ['–', '–'],
		"largest drive's share": ['–', '–'],
	});
	expect(Object.keys(printed(null, null))).toEqual([
		'No chances are computed: the majority window is too long to follow.',
	]);
	expect(computedRateRow(both(null, null), 'early')).toEqual([]);
	expect(computedRateRow(both(rate(), null), 'early')).toHaveLength(1);
});

test('limits of a rate in an hour are those of a sector times the sectors of an hour', () => {
	expect(computedIntervalWords(rate(), 1e7).replaceAll('\u00a0', ' ')).toBe('0.01 … 0.06');
});
