import { expect, test } from 'vitest';
import { csvText } from '../../shared/words/csv.ts';
import { specTable } from '../../src/page/model/spec-table.ts';

test('commas, quotes and line ends are quoted, numbers keep all their digits, missing ones are empty', () => {
	const text = csvText({
		header: ['name', 'value (V)'],
		rows: [
			['a, "b"', 0.1 + 0.2],
			['line\nend', Number.NaN],
			['', -1e-7],
		],
	});
	expect(text).toBe('name,value (V)\r\n"a, ""b""",0.30000000000000004\r\n"line\nend",\r\n,-1e-7\r\n');
});

test('a text that a spreadsheet would take for a formula is kept a text', () => {
	expect(csvText({ header: ['x'], rows: [['=1+1'], ['-b'], ['@c']] })).toBe("x\r\n'=1+1\r\n'-b\r\n'@c\r\n");
});

test('a chart’s figures are its datasets, layer by layer', () => {
	const table = specTable({
		datasets: { bins: [{ from: 0, count: 3 }], ghost: [{ from: 1, mean: 2.5, count: null }] },
		data: { name: 'bins' },
		mark: 'bar',
	});
	expect(table).toEqual({
		header: ['layer', 'from', 'count', 'mean'],
		rows: [
			['bins', 0, 3, ''],
			['ghost', 1, '', 2.5],
		],
	});
});
