import { expect, test } from 'vitest';
import { momentWords } from '../../src/page/parts/moment-words.ts';

test('a moment has its month as a word, whatever the language of the browser', () => {
	expect(momentWords(new Date(2026, 10, 2, 23, 16, 3).getTime())).toBe('2 Nov 2026, 23:16:03');
});
