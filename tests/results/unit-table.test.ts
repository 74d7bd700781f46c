import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { unitColumns, unitTable } from '../../shared/results/unit-table.ts';
import { csvLines } from '../../shared/words/csv.ts';
import { studyOf } from '../study/study-of.ts';

const { result, record } = await studyOf(4, { failed: 2, lost: 1 });
const text = [...unitTable(record)].map(csvLines).join('');
const [header = [], ...rows] = text
	.trimEnd()
	.split('\r\n')
	.map((line) => line.split(','));
const cell = (row: number, name: string): string => rows[row]?.[header.indexOf(name)] ?? 'no such column';

test('4 drives at 2 points give 8 rows, the failed drive two without figures', () => {
	expect(rows.map((row) => row.slice(0, 3).join(' '))).toEqual([
		'0 finished fast',
		'0 finished faster',
		'1 finished fast',
		'1 finished faster',
		'2 failed fast',
		'2 failed faster',
		'3 finished fast',
		'3 finished faster',
	]);
	for (const row of rows) expect(row).toHaveLength(header.length);
	expect(rows[4]?.slice(3).join('')).toBe('');
});

test('cells are the columns with all their digits; passing and its reason are the verdict’s', () => {
	const { columns } = record.study;
	expect(cell(0, 'halfBus.errorSum')).toBe(String(columns.errorSum[0]));
	expect(cell(1, 'virtualNeutral.sectors')).toBe(String(columns.sectors[3]));
	expect(Number(cell(1, 'virtualNeutral.mean'))).toBe((columns.errorSum[3] as number) / (columns.sectors[3] as number));
	expect([cell(3, 'halfBus.passes'), cell(3, 'halfBus.shortcoming'), cell(3, 'halfBus.unitError')]).toEqual([
		'0',
		'lock',
		'Infinity',
	]);
	for (const [point, { choices }] of result.points.entries()) {
		for (const choice of ['halfBus', 'virtualNeutral'] as const) {
			const passed = rows.filter((row, i) => i % 2 === point && row[header.indexOf(`${choice}.passes`)] === '1');
			expect(passed).toHaveLength(choices[choice].passing.passed);
		}
	}
});

test('every column is in the README, with its meaning', () => {
	const readme = readFileSync('README.md', 'utf8');
	for (const { name, meaning } of [...unitColumns.row, ...unitColumns.choice]) {
		expect(readme).toContain(`| \`${name}\` |`);
		expect(readme).toContain(`| ${meaning.replaceAll('|', '\\|')} |`);
	}
	expect(header).toHaveLength(unitColumns.row.length + 2 * unitColumns.choice.length);
});
