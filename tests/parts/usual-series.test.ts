import { expect, test } from 'vitest';
import { usualSeries } from '../../shared/parts/usual-series.ts';

// Common practice of the trade; IEC 60063 names E24 for 5 %, E48 for 2 %, E96 for 1 %, E192 for 0.5 % (from memory).
test.each([
	[0.2, 'E6'],
	[0.1, 'E12'],
	[0.05, 'E24'],
	[0.02, 'E48'],
	[0.01, 'E96'],
	[0.005, 'E192'],
	[0.001, 'E192'],
	// between two grades: the finer series has the looser one's tolerance covered
	[0.03, 'E48'],
])('resistors of ± %d come in %s', (tolerance, series) => {
	expect(usualSeries(tolerance)).toBe(series);
});
