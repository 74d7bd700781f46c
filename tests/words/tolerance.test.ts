import { expect, test } from 'vitest';
import type { NumberRecord, Tolerance } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import { toleranceWords } from '../../shared/words/tolerance.ts';

test.each([
	[[0.01], 'measured, 1 value'],
	[[0.01, 0], 'measured, 2 values'],
])('measured deviations are told with their number: %j, "%s"', (measured, words) => {
	const tolerance: Tolerance = {
		scale: 'relative',
		lot: 0,
		mismatch: 0,
		distribution: 'measured',
		measured,
		basis: 'measured',
	};
	expect(toleranceWords(parameter('sensing.divider.top') as NumberRecord, tolerance).spread).toBe(words);
});
