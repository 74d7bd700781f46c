import { nearestName } from '../scenario/nearest-name.ts';
import { shortened } from '../scenario/read-json.ts';
import type { Problem } from '../scenario/scenario.ts';

/** Sector intervals of one drive, in a row, in whatever unit they were measured in. */
export interface MeasuredDrive {
	readonly name: string;
	readonly intervals: Float64Array<ArrayBuffer>;
	/** Intervals of this drive in the file, in all its runs. */
	readonly logged: number;
}

export type LogReading = { readonly drives: readonly MeasuredDrive[] } | { readonly problems: readonly Problem[] };

/** Four electrical revolutions: with fewer, hardly anything could be told. */
const leastIntervals = 24;

/**
 * Reads a log of sector intervals: text with a header that names the columns
 * `drive`, `interval` and, where a drive was logged more than once, `run`; other
 * columns are left alone. Rows of one drive and run are consecutive sectors. Of
 * each drive the longest run counts. Columns are parted by commas, semicolons or
 * tabs; numbers have a decimal point. Never throws.
 */
export function readLog(text: string): LogReading {
	const lines = text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);
	const separator = [',', ';', '\t'].find((sign) => lines[0]?.includes(sign)) ?? ',';
	const cellsOf = (line: string): string[] =>
		line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
	const header = cellsOf(lines[0] ?? '').map((name) => name.toLowerCase());
	const problems: Problem[] = [];
	const missing = ['drive', 'interval'].filter((name) => !header.includes(name));
	for (const name of missing) {
		const near = nearestName(name, header);
		const hint = near === undefined ? '' : `; is it “${near}”?`;
		problems.push({ path: 'line 1', value: shortened(lines[0] ?? ''), message: `must name a column “${name}”${hint}` });
	}
	for (const name of ['drive', 'interval', 'run']) {
		if (header.indexOf(name) === header.lastIndexOf(name)) continue;
		problems.push({
			path: 'line 1',
			value: shortened(lines[0] ?? ''),
			message: `names the column “${name}” twice; keep one`,
		});
	}
	if (problems.length > 0) return { problems };
	const [drivePlace, intervalPlace, runPlace] = ['drive', 'interval', 'run'].map((name) => header.indexOf(name)) as [
		number,
		number,
		number,
	];

	const faults: Fault[] = [];
	const runs = new Map<string, Map<string, number[]>>();
	for (const [place, line] of lines.entries()) {
		if (place === 0 || line.trim() === '') continue;
		const cells = cellsOf(line);
		const [drive = '', written = ''] = [cells[drivePlace], cells[intervalPlace]];
		const interval = written === '' ? Number.NaN : Number(written);
		const at = place + 1;
		if (drive === '') faults.push({ line: at, value: shortened(line), message: 'names no drive' });
		else if (cells.length > header.length && cells.at(-1) !== '' && !line.includes('"')) {
			// a decimal comma between commas would lose its decimals
			const message = `has ${cells.length} columns, its head ${header.length}; the decimal sign is a point`;
			faults.push({ line: at, value: shortened(line), message });
		} else if (!(interval > 0 && Number.isFinite(interval))) {
			const message = written.includes(',')
				? 'has a comma; the decimal sign is a point'
				: 'is no interval: it must be a number above 0';
			faults.push({ line: at, value: shortened(written), message });
		} else {
			const own = runs.get(drive) ?? new Map<string, number[]>();
			runs.set(drive, own);
			const run = (runPlace < 0 ? '' : cells[runPlace]) ?? '';
			const intervals = own.get(run);
			if (intervals) intervals.push(interval);
			else own.set(run, [interval]);
		}
	}
	problems.push(...gathered(faults));
	const drives = [...runs].map(([name, own]): MeasuredDrive => {
		const all = [...own.values()];
		const longest = all.reduce((one, other) => (other.length > one.length ? other : one));
		const logged = all.reduce((sum, { length }) => sum + length, 0);
		return { name, intervals: Float64Array.from(longest), logged };
	});
	if (problems.length === 0 && drives.length === 0) {
		problems.push({ path: 'line 2', value: '', message: 'is missing: the log has no intervals' });
	}
	for (const { name, intervals } of problems.length === 0 ? drives : []) {
		if (intervals.length >= leastIntervals) continue;
		problems.push({
			path: `drive ${name}`,
			value: '',
			message: `has ${intervals.length} ${intervals.length === 1 ? 'interval' : 'intervals'} in a row; at least ${leastIntervals} are needed`,
		});
	}
	return problems.length === 0 ? { drives } : { problems };
}

/** What is wrong with a line, counted from 1. */
interface Fault {
	readonly line: number;
	readonly value: string;
	readonly message: string;
}

/** So many lines in a row with the same fault, often a whole column, are one problem, told with the first one's value. */
const leastGathered = 10;

function gathered(faults: readonly Fault[]): Problem[] {
	const problems: Problem[] = [];
	for (let first = 0; first < faults.length; ) {
		const { line, value, message } = faults[first] as Fault;
		let end = first + 1;
		while (faults[end]?.line === line + end - first && faults[end]?.message === message) end += 1;
		if (end - first < leastGathered) {
			problems.push({ path: `line ${line}`, value, message });
			first += 1;
		} else {
			problems.push({ path: `lines ${line} to ${line + end - first - 1}`, value: `${value}, …`, message });
			first = end;
		}
	}
	return problems;
}
