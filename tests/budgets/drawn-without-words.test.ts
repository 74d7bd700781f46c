import { expect, test } from 'vitest';
import { drawnWithoutWords } from '../../shared/budgets/drawn-without-words.ts';

test('1 drawn drive is left out, 12 are', () => {
	expect(drawnWithoutWords(1)).toMatch(/^1 drawn drive lost lock .* and is left out: /);
	expect(drawnWithoutWords(12)).toMatch(/^12 drawn drives lost lock .* and are left out: /);
});
