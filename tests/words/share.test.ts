import { expect, test } from 'vitest';
import { shareWords } from '../../shared/words/share.ts';

const words = (...given: Parameters<typeof shareWords>) => shareWords(...given).replace('\u00a0', ' ');

test('shares near 0 and 1 keep two digits of what is missing, others one decimal', () => {
	expect([0.5, 0.8712, 0.9954, 0.999954, 0.0012].map((share) => words(share))).toEqual([
		'50.0 %',
		'87.1 %',
		'99.54 %',
		'99.9954 %',
		'0.12 %',
	]);
	expect([words(0), words(1), words(Number.NaN)]).toEqual(['0 %', '100 %', 'unknown']);
});

test('limits are rounded so that they claim no more than was shown', () => {
	expect(words(0.99708, 'down')).toBe('99.70 %');
	expect(words(0.94999, 'up')).toBe('95.0 %');
	expect(words(0.94999, 'down')).toBe('94.9 %');
	expect(words(0.999999, 'down')).toBe('99.99990 %');
});
