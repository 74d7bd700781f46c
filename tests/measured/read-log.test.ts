import { expect, test } from 'vitest';
import { readLog } from '../../shared/measured/read-log.ts';

const rows = (drive: string, count: number, run = ''): string[] =>
	Array.from({ length: count }, (_, i) => `${drive},${1000 + i},${run}`);

test('columns are found by name in any order and case, other columns, blank lines, quotes and line ends of every kind are taken', () => {
	const lines = ['Note;INTERVAL;"Drive"', ...Array.from({ length: 24 }, (_, i) => `x;${1000.5 + i};"A 1"`), ''];
	for (const end of ['\n', '\r\n', '\r']) {
		const reading = readLog(`\ufeff${lines.join(end)}`);
		expect(reading).toMatchObject({ drives: [{ name: 'A 1', logged: 24 }] });
		expect('drives' in reading && reading.drives[0]?.intervals[1]).toBe(1001.5);
	}
});

test('drives may alternate row by row; of each the longest run counts', () => {
	const [one, two] = [rows('one', 30), rows('two', 30)];
	const reading = readLog(
		['drive,interval,run', ...one.flatMap((row, i) => [row, two[i] ?? '']), ...rows('two', 25, 'b')].join('\n'),
	);
	expect(reading).toMatchObject({
		drives: [
			{ name: 'one', logged: 30 },
			{ name: 'two', logged: 55 },
		],
	});
	expect('drives' in reading && reading.drives.map(({ intervals }) => intervals.length)).toEqual([30, 30]);
});

test('every problem is told with its line: missing columns, no number, nothing, too few in a row', () => {
	const of = (text: string): string[] => {
		const reading = readLog(text);
		return 'problems' in reading
			? reading.problems.map(({ path, value, message }) => `${path} ${value} ${message}`)
			: [];
	};
	expect(of('drives,time\n')).toEqual([
		'line 1 drives,time must name a column “drive”; is it “drives”?',
		'line 1 drives,time must name a column “interval”',
	]);
	expect(of('drive,interval\na,0\n,5\na,x\na,\na,1e999\na,1,5')).toEqual([
		'line 2 0 is no interval: it must be a number above 0',
		'line 3 ,5 names no drive',
		'line 4 x is no interval: it must be a number above 0',
		'line 5 "" is no interval: it must be a number above 0',
		'line 6 1e999 is no interval: it must be a number above 0',
		'line 7 a,1,5 has 3 columns, its head 2; the decimal sign is a point',
	]);
	expect(of('drive,interval\n')).toEqual(['line 2  is missing: the log has no intervals']);
	expect(of(['drive,interval,run', ...rows('a', 23)].join('\n'))).toEqual([
		'drive a  has 23 intervals in a row; at least 24 are needed',
	]);
	expect(of(`drive,interval\n${'a,x\n'.repeat(1000)}a,\na,5\na,y\n`)).toEqual([
		'lines 2 to 1002 x, … is no interval: it must be a number above 0',
		'line 1004 y is no interval: it must be a number above 0',
	]);
});

test('a decimal comma is called that, also where commas part the columns and the decimals would be lost', () => {
	const told = (text: string): readonly string[] => {
		const read = readLog(text);
		return 'problems' in read ? read.problems.map(({ path, message }) => `${path} ${message}`) : [];
	};
	expect(told('drive;interval\nA;2852,5')).toEqual(['line 2 has a comma; the decimal sign is a point']);
	expect(told('drive,interval\nA,2852,5')).toEqual(['line 2 has 3 columns, its head 2; the decimal sign is a point']);
	// a separator at the end, and a comma within quotes, lose nothing
	expect(told('drive,interval,note\nA,2852,"cold, dry"\nA,2852,,')).toEqual([
		'drive A has 2 intervals in a row; at least 24 are needed',
	]);
	expect(told('drive,interval\nA,2852')).toEqual(['drive A has 1 interval in a row; at least 24 are needed']);
});

test('a column that is named twice is a problem, since only one of the two would be read', () => {
	expect(readLog('drive,interval,interval\na,1,2')).toEqual({
		problems: [
			{ path: 'line 1', value: 'drive,interval,interval', message: 'names the column “interval” twice; keep one' },
		],
	});
});
