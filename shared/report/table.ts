import { type Content, html, type Markup } from './html.ts';

/** A row of cells; a group's title stands over the rows that follow it. */
export type TableRow =
	| { readonly cells: readonly Content[]; readonly level?: number; readonly mark?: string }
	| { readonly group: Content };

interface TableOptions {
	readonly caption: Content;
	readonly head: readonly Content[];
	readonly rows: readonly TableRow[];
	/** Columns, counted from 0, that hold words: set to the left. The first one always is. */
	readonly words?: readonly number[];
	/** What is to be known about the figures. */
	readonly notes?: readonly Content[];
	readonly kind?: string;
}

/**
 * A table that may break between its groups, in long ones between rows, and
 * never inside a row: a group's title stays with what follows, and the head is
 * repeated on each page.
 */
export function table({ caption, head, rows, words = [], notes = [], kind = '' }: TableOptions): Markup {
	const isWords = (column: number): boolean => column === 0 || words.includes(column);
	const cell = (content: Content, column: number): Markup =>
		column === 0
			? html`<th scope="row">${content}</th>`
			: html`<td${isWords(column) && html` class="words"`}>${content}</td>`;
	const line = (row: TableRow): Markup =>
		'group' in row
			? html`<tr class="group"><th scope="rowgroup" colspan="${head.length}">${row.group}</th></tr>`
			: html`<tr class="level-${row.level ?? 0} ${row.mark}">${row.cells.map(cell)}</tr>`;
	return html`
<div class="table ${kind} ${rows.length <= wholeRows && 'whole'}">
<table>
<caption>${caption}</caption>
<thead><tr>${head.map((title, column) => html`<th scope="col"${isWords(column) && html` class="words"`}>${title}</th>`)}</tr></thead>
${groupsOf(rows).map((group) => html`<tbody${group.length <= wholeRows && html` class="whole"`}>${group.map(line)}</tbody>`)}
</table>
${notes.map((note) => note && html`<p class="note">${note}</p>`)}
</div>`;
}

/** A table, and a group in one, of no more rows is kept on one page. */
const wholeRows = 12;

/** What belongs together: a group's title, or a row with others that stand in under it, up to the next of either. */
function groupsOf(rows: readonly TableRow[]): readonly (readonly TableRow[])[] {
	const groups: TableRow[][] = [];
	const standsIn = (row: TableRow | undefined): boolean =>
		row !== undefined && !('group' in row) && (row.level ?? 0) > 0;
	for (const [place, row] of rows.entries()) {
		const begins = 'group' in row || (!standsIn(row) && (standsIn(rows[place - 1]) || standsIn(rows[place + 1])));
		if (groups.length === 0 || begins) groups.push([]);
		groups.at(-1)?.push(row);
	}
	return groups;
}
