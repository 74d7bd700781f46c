import fc from 'fast-check';
import { expect, test } from 'vitest';
import { textWidth, widthOf, wrapText } from '../../src/command-line/wrap-text.ts';

test('no line is wider than 80 columns, and no word is lost', () => {
	fc.assert(
		fc.property(fc.array(fc.stringMatching(/^[a-z°Ω−]{1,30}$/), { minLength: 1, maxLength: 60 }), (words) => {
			const lines = wrapText(words.join(' '), { first: '- ', rest: '  ' }).split('\n');
			for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
			expect(lines.map((line) => line.slice(2)).join(' ')).toBe(words.join(' '));
		}),
	);
});

test('a number keeps its per cent sign on the same line', () => {
	const text = `${'x'.repeat(77)} 95 % more`;
	expect(wrapText(text).split('\n')[1]).toBe('95 % more');
});
