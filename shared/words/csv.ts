export type CsvRow = readonly (string | number)[];

/** A picture's figures: a header with units, then one row after another. */
export interface Table {
	readonly header: readonly string[];
	readonly rows: readonly CsvRow[];
}

/** RFC 4180: commas, lines ended by CR LF, texts in quotes where they need them. Numbers with all their digits. */
export const csvText = ({ header, rows }: Table): string => csvLines([header, ...rows]);

export const csvLines = (rows: readonly CsvRow[]): string =>
	rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

function cell(value: string | number): string {
	if (typeof value === 'number') return Number.isNaN(value) ? '' : String(value);
	// a spreadsheet would take these for a formula
	const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
	return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
