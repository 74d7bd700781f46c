import { expect, test } from 'vitest';
import { editDistance, nearestName, unknownName } from '../../shared/scenario/nearest-name.ts';

// Textbook pairs of Levenshtein's distance (from memory).
test.each([
	['kitten', 'sitting', 3],
	['saturday', 'sunday', 3],
	['', 'abc', 3],
	['same', 'same', 0],
])('%s → %s takes %d edits', (a, b, edits) => {
	expect(editDistance(a, b)).toBe(edits);
	expect(editDistance(b, a)).toBe(edits);
});

test('a slip of the pen is mended, a stranger is not', () => {
	const known = ['phaseResistance', 'phaseInductance', 'polePairs'];
	expect(nearestName('phaseResistence', known)).toBe('phaseResistance');
	expect(nearestName('PolePairs', known)).toBe('polePairs');
	expect(nearestName('colour', known)).toBeUndefined();
	expect(unknownName('polePairs', ['motor'], ['motor.polePairs'])).toContain('did you mean motor.polePairs?');
});
