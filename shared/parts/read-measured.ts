import type { NumberRecord, Unit } from '../parameters/parameter.ts';
import { parseQuantity } from '../parameters/quantity.ts';

export interface MeasuredReading {
	/** In the parameter's unit, in the order of the file. */
	readonly values: readonly number[];
	/** The column's heading; '' where there is none. */
	readonly heading: string;
}

/** Wrong lines that are told one by one; the rest are counted. */
const mostTold = 12;
/** More values than this make a distribution no finer. */
const mostValues = 10_000;

/**
 * Measured values of a part from a list or table: one value a line, or columns
 * set apart by comma, semicolon or tab, of which one is headed `value`, the
 * part's name, symbol or id, or is the only one with numbers. Values are written
 * as anywhere else ("22013", "22.01k"); plain numbers are in the heading's unit,
 * where it names one ("R_top [kΩ]"). Everything wrong is told, with its line.
 */
export function readMeasured(
	text: string,
	record: Pick<NumberRecord, 'id' | 'name' | 'symbol' | 'unit'>,
): MeasuredReading | { readonly problems: readonly string[] } {
	const lines = text
		.replace(/^\ufeff/, '')
		.split(/\r\n|\n|\r/)
		.map((line, i) => ({ line, number: i + 1 }))
		.filter(({ line }) => line.trim() !== '' && !line.trimStart().startsWith('#'));
	const [first] = lines;
	if (!first) return { problems: ['the file has no values'] };
	const separator = ['\t', ';', ','].find((sign) => first.line.includes(sign)) ?? '\n';
	const table = lines.map(({ line, number }) => ({ number, cells: line.split(separator).map(plain) }));
	const isNumber = (cell: string): boolean => 'value' in parseQuantity(cell, record.unit);
	const hasHead = !table[0]?.cells.some(isNumber);
	const head = hasHead ? (table[0]?.cells ?? []) : [];
	const body = hasHead ? table.slice(1) : table;
	if (body.length === 0) return { problems: ['the file has a heading and no values'] };
	if (body.length > mostValues) {
		return { problems: [`the file has ${body.length} values; at most ${mostValues} are taken`] };
	}
	const column = columnOf(head, body, record, isNumber);
	if (typeof column === 'string') return { problems: [column] };

	const problems: string[] = [];
	const values: number[] = [];
	const { unit } = headingParts(head[column] ?? '', record.unit);
	for (const { number, cells } of body) {
		const cell = cells[column] ?? '';
		const quantity = parseQuantity(unit !== '' && plainNumber.test(cell) ? `${cell} ${unit}` : cell, record.unit);
		if ('value' in quantity) values.push(quantity.value);
		else problems.push(`line ${number}: ${cell === '' ? 'the value' : `“${cell.slice(0, 24)}”`} ${quantity.problem}`);
	}
	if (problems.length === 0) return { values, heading: head[column] ?? '' };
	const told = problems.slice(0, mostTold);
	return {
		problems: problems.length > mostTold ? [...told, `and ${problems.length - mostTold} further lines`] : told,
	};
}

/** Which column holds the values; or why that cannot be told. */
function columnOf(
	head: readonly string[],
	body: readonly { readonly cells: readonly string[] }[],
	{ id, name, symbol, unit }: Pick<NumberRecord, 'id' | 'name' | 'symbol' | 'unit'>,
	isNumber: (cell: string) => boolean,
): number | string {
	const names = ['value', name, symbol, id, id.slice(id.lastIndexOf('.') + 1)].map((one) => one.toLowerCase());
	const named = head.findIndex((heading) => names.includes(headingParts(heading, unit).name.toLowerCase()));
	if (named >= 0) return named;
	const width = Math.max(...body.map(({ cells }) => cells.length));
	if (width === 1) return 0;
	const numeric = Array.from({ length: width }, (_, i) => i).filter((i) =>
		body.every(({ cells }) => isNumber(cells[i] ?? '')),
	);
	if (numeric.length === 1) return numeric[0] as number;
	return numeric.length === 0
		? 'no column has a number in every line; head the right one “value”'
		: `${numeric.length} columns have numbers; head the right one “value”, or write decimals with a point`;
}

const plainNumber = /^[+-]?[\d.]+(?:e[+-]?\d+)?$/i;

/**
 * Name and unit of a heading: "R_top/kΩ", as ISO 80000-1 has it for tables, "R_top [kΩ]" or "R_top (kΩ)"; a heading that
 * ends in anything else is all name.
 */
function headingParts(heading: string, unit: Unit): { readonly name: string; readonly unit: string } {
	const parts = heading.length > longestHeading ? null : /^(.*)(?:\[(.*)\]|\((.*)\)|\/(.*))$/.exec(heading);
	const named = (parts?.[2] ?? parts?.[3] ?? parts?.[4] ?? '').trim();
	if (!parts || named === '' || !('value' in parseQuantity(`1 ${named}`, unit))) return { name: heading, unit: '' };
	return { name: (parts[1] ?? '').trim(), unit: named };
}

const longestHeading = 80;

const plain = (cell: string): string =>
	cell
		.trim()
		.replace(/^"(.*)"$/, '$1')
		.trim();
