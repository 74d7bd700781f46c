import { expect, test } from 'vitest';
import { nextPreferred } from '../../shared/parts/next-preferred.ts';
import { preferredValues } from '../../shared/parts/preferred-series.ts';

// IEC 60063:2015, tables of E24 and E96
test.each([
	[22e3, 'E24', 1, 24e3],
	[22e3, 'E24', -1, 20e3],
	[9.1, 'E24', 1, 10],
	[1e3, 'E24', -1, 910],
	[48.7e3, 'E96', 1, 49.9e3],
	[9.76e3, 'E96', 1, 10e3],
	[470e-12, 'E12', 1, 560e-12],
	[21e3, 'E24', 1, 22e3],
	[21e3, 'E24', -1, 20e3],
] as const)('from %d the next of %s by %d is %d', (value, series, step, next) => {
	expect(nextPreferred(value, series, step)).toBe(next);
});

test('stepping up through E96 from 1 kΩ passes all 96 values to 10 kΩ, and back down again', () => {
	let value = 1000;
	const seen = [value];
	while (value < 10_000) {
		value = nextPreferred(value, 'E96', 1);
		seen.push(value);
	}
	expect(seen).toHaveLength(97);
	expect(seen.slice(0, 96)).toEqual(preferredValues('E96').map((digits) => Number(`${digits}e3`)));
	for (const expected of seen.toReversed().slice(1)) {
		value = nextPreferred(value, 'E96', -1);
		expect(value).toBe(expected);
	}
});
