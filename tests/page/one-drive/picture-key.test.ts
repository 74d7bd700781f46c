import { expect, test } from 'vitest';
import { entryWidth, pictureKey } from '../../../src/page/model/one-drive/picture-key.ts';

test.each([240, 340, 600, 900])(
	'every mark of the picture has its words in a key %i px wide, none over another',
	(width) => {
		const { placed, height } = pictureKey(width, true);
		const marks = placed.map(({ mark }) => mark).filter((mark) => mark !== null);
		expect(new Set(marks).size).toBe(marks.length);
		expect(marks).toEqual(expect.arrayContaining(['blanking', 'true', 'accepted', 'wrong', 'votes', 'needed']));
		for (const [i, entry] of placed.entries()) {
			expect(entry.x + entryWidth(entry)).toBeLessThanOrEqual(width);
			expect(entry.y).toBeLessThan(height);
			const next = placed[i + 1];
			if (next?.y === entry.y) expect(next.x).toBeGreaterThanOrEqual(entry.x + entryWidth(entry));
			// what is told of a zoom stands before a mark, not at a row's end
			if (entry.mark === null) expect(next?.y).toBe(entry.y);
		}
	},
);

test('the baseline is in the key only where its marks are in the picture', () => {
	const of = (hasBaseline: boolean) => pictureKey(900, hasBaseline).placed.map(({ words }) => words);
	expect(of(true)).toContain('Grey, the baseline:');
	expect(of(false).join()).not.toContain('aseline');
	expect(of(false)).toHaveLength(of(true).length - 3);
});
