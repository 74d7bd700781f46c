import { expect, test } from 'vitest';
import { temporaryFolder } from '../tooling/temporary-folder.ts';
import { changes, comparable, keepBaseline, readBaseline } from './baseline.ts';
import type { BenchParts } from './bench-result.ts';

const machine = { processor: 'one', cores: 2, system: 'any', node: '20', load: 0 };
const none: BenchParts = { engine: null, growth: null, start: null, page: null };
const grown: BenchParts['growth'] = [
	{ units: 1000, seconds: 2, unitProcessor: 1e-3, memory: 120e6 },
	{ units: 10_000, seconds: 9, unitProcessor: 0.5e-3, memory: 140e6 },
];

test('a figure 11 % above or below what was kept is shown; one 9 % off, and one never kept, is not', () => {
	const baseline = { machine, figures: { a: 100, b: 100, c: 100, d: 100 } };
	expect(changes(baseline, { a: 111, b: 89, c: 109, d: 91, e: 1 })).toEqual([
		{ name: 'a', before: 100, now: 111 },
		{ name: 'b', before: 100, now: 89 },
	]);
});

test('growth is kept as ratios to the smallest study and as megabytes, no time of any machine', () => {
	expect(comparable({ ...none, growth: grown })).toEqual({
		'time of a further unit of 1000 over that of 1000': 1,
		'megabytes for 1000 units': 120,
		'time of a further unit of 10000 over that of 1000': 0.5,
		'megabytes for 10000 units': 140,
	});
	expect(comparable(none)).toEqual({});
});

test('keeping one part leaves what was kept of the others, to four digits; a whole run leaves nothing', () => {
	const file = `${temporaryFolder()}baseline.json`;
	expect(readBaseline(file)).toBeNull();
	keepBaseline(file, { machine, figures: { first: 1.23456, second: 2 } }, true);
	const two = { ...machine, processor: 'two' };
	keepBaseline(file, { machine: two, figures: { second: 3 } }, false);
	expect(readBaseline(file)).toEqual({ machine: two, figures: { first: 1.235, second: 3 } });
	keepBaseline(file, { machine: two, figures: { second: 4 } }, true);
	expect(readBaseline(file)?.figures).toEqual({ second: 4 });
});
