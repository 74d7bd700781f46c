import { expect, test } from 'vitest';
import { groundLines } from '../../src/command-line/provenance-lines.ts';
import { rangeTable } from '../../src/command-line/range-table.ts';
import { provenance } from '../origins/provenance.ts';
import { rangeResult } from '../range/range-fixture.ts';

const delayOf = (lines: readonly string[]): string | undefined =>
	lines.find((line) => line.startsWith('Compensated delay'))?.replace(/^Compensated delay +/, '');

test('a delay that was not found before the end is not known, one of 0 s that was is told', () => {
	expect(delayOf(groundLines({ ...provenance, partial: true }))).toBe('not known yet');
	expect(delayOf(groundLines(provenance))).toBe('half-bus 0 s, virtual neutral 0 s');
	const units = { asked: 9, finished: 1, failed: 0 };
	expect(delayOf(groundLines({ ...provenance, units, partial: true }))).toBe('half-bus 0 s, virtual neutral 0 s');
});

test('values with delays of their own are not said to share one', () => {
	const result = rangeResult();
	const shared = delayOf(rangeTable(result).split('\n'));
	expect(shared).toMatch(/^half-bus /);
	const values = result.values.map((value, place) => ({
		...value,
		compensation: { halfBus: place * 1e-5, virtualNeutral: 5e-5 },
	}));
	expect(delayOf(rangeTable({ ...result, values }).split('\n'))).toBe('each value has its own');
});

test('values that share a delay other than the scenario’s have that one told', () => {
	const result = rangeResult();
	const compensation = { halfBus: 80e-6, virtualNeutral: 81e-6 };
	const values = result.values.map((value) => ({ ...value, compensation }));
	expect(delayOf(rangeTable({ ...result, values }).split('\n'))).toBe('half-bus 80 µs, virtual neutral 81 µs');
});
