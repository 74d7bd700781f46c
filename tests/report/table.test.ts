import { expect, test } from 'vitest';
import { markupOf } from '../../shared/report/html.ts';
import { type TableRow, table } from '../../shared/report/table.ts';

const row = (name: string, level = 0): TableRow => ({ level, cells: [name, '1'] });
/** The names of each group of rows, a mark before those that are kept on one page. */
const groupsOf = (rows: readonly TableRow[]): readonly string[] =>
	[
		...markupOf(table({ caption: 'c', head: ['', 'n'], rows })).matchAll(
			/<tbody( class="whole")?>([\s\S]*?)<\/tbody>/g,
		),
	].map(
		([, whole, body = '']) =>
			`${whole ? '= ' : ''}${[...body.matchAll(/<th scope="row(?:group)?"[^>]*>(.*?)<\/th>/g)].map(([, name]) => name).join(' ')}`,
	);

test('a title with its rows is a group, and so is a row with those that stand in under it; 12 rows and fewer are kept on one page', () => {
	expect(
		groupsOf([
			{ group: 'A' },
			row('a1', 1),
			row('a2', 2),
			row('b'),
			row('b1', 1),
			row('c'),
			row('d'),
			{ group: 'E' },
			row('e', 1),
		]),
	).toEqual(['= A a1 a2', '= b b1', '= c d', '= E e']);
	const many = Array.from({ length: 13 }, (_, i) => row(String(i)));
	expect(groupsOf(many)).toEqual([many.map((_, i) => i).join(' ')]);
	expect(groupsOf(many.slice(1))).toEqual([
		`= ${many
			.slice(1)
			.map((_, i) => i + 1)
			.join(' ')}`,
	]);
});

test('rows, columns and groups say what they head', () => {
	const markup = markupOf(table({ caption: 'Figures', head: ['', 'one'], rows: [{ group: 'G' }, row('a', 1)] }));
	expect(markup).toContain('<caption>Figures</caption>');
	expect(markup).toContain('<th scope="col">one</th>');
	expect(markup).toContain('<th scope="rowgroup" colspan="2">G</th>');
	expect(markup).toContain('<th scope="row">a</th>');
});
