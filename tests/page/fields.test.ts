import { expect, test } from 'vitest';
import { createFields, isOneOf, isPointTyped, isText } from '../../src/page/model/fields.ts';

const notebook = (text: string | null = null) => {
	const pages = { text };
	return {
		pages,
		read: () => pages.text,
		write: (next: string) => {
			pages.text = next;
		},
	};
};

test('fields come back as they were left, those that were never touched at their beginning', () => {
	const place = notebook();
	const before = createFields(place);
	before.field('grades.grades', '5 %, 1 %', isText).value = '1 %, 0.1 %';
	before.field('grades.units', '300', isText);
	const after = createFields(place);
	expect(after.field('grades.grades', '5 %, 1 %', isText).value).toBe('1 %, 0.1 %');
	expect(after.field('grades.units', '200', isText).value).toBe('200');
});

test('a field set back to its beginning is kept no more, and one that is not asked for yet is not lost', () => {
	const place = notebook('{"one":"a","other":"b"}');
	const fields = createFields(place);
	const one = fields.field('one', '', isText);
	expect(one.value).toBe('a');
	one.value = '';
	expect(JSON.parse(place.pages.text ?? '')).toEqual({ other: 'b' });
});

test.each([
	['nothing', null],
	['no JSON', '{"a":'],
	['a list', '["x"]'],
	['a number', '7'],
	['other kinds of value', `{"text":7,"point":-1,"kind":"evil","long":"${'x'.repeat(20_000)}"}`],
])('%s in the notebook harms nothing', (_what, text) => {
	const fields = createFields(notebook(text));
	expect(fields.field('text', 'as at first', isText).value).toBe('as at first');
	expect(fields.field('long', '', isText).value).toBe('');
	expect(fields.field<number | null>('point', null, isPointTyped).value).toBeNull();
	expect(fields.field('kind', 'all', isOneOf('all', 'star')).value).toBe('all');
});

test('without a notebook, or where it is not allowed, fields work all the same', () => {
	const forbidden = {
		read: () => {
			throw new Error('not allowed');
		},
		write: () => {
			throw new Error('not allowed');
		},
	};
	for (const place of [undefined, forbidden]) {
		const field = createFields(place).field('x', 'a', isText);
		field.value = 'b';
		expect(field.value).toBe('b');
	}
});
