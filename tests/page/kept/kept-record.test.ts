import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readRecord } from '../../../src/page/model/kept/kept-record.ts';
import { record } from './kept-fixture.ts';

const problemOf = (stored: unknown): string => {
	const read = readRecord(stored);
	return 'problem' in read ? read.problem : '';
};

test('a record as it is kept is read, infinite figures and all', () => {
	const kept = structuredClone(record());
	expect(readRecord(kept)).toEqual({ record: kept });
});

/** The value with the member at a path taken out or replaced. */
function changed(value: unknown, path: readonly (string | number)[], to: unknown): unknown {
	const [step, ...rest] = path;
	if (step === undefined) return to;
	const copy = Array.isArray(value) ? [...value] : { ...(value as object) };
	(copy as Record<string | number, unknown>)[step] = changed(
		(value as Record<string | number, unknown>)[step],
		rest,
		to,
	);
	return copy;
}

test.each([
	[['name'], 3, 'record.name'],
	[['work', 'text'], null, 'record.work.text'],
	[['work', 'point'], -1, 'record.work.point'],
	[['result', 'formatVersion'], 4, 'record.result.formatVersion'],
	[['result', 'provenance', 'units'], [], 'record.result.provenance.units'],
	[
		['result', 'points', 1, 'choices', 'halfBus', 'unitError', 'q95'],
		'4.2',
		'record.result.points[1].choices.halfBus.unitError.q95',
	],
	[['result', 'points', 0, 'paired', 'better'], 'both', 'record.result.points[0].paired.better'],
	[
		['result', 'points', 0, 'choices', 'halfBus', 'rates', 'early'],
		undefined,
		'record.result.points[0].choices.halfBus.rates.early',
	],
	[['result', 'points'], new Array(21).fill({}), 'record.result.points'],
	[['note'], 'x'.repeat(4001), 'record.note'],
])('with %j changed it is refused, and where is told', (path, to, where) => {
	expect(problemOf(changed(record(), path, to))).toContain(` ${where} `);
});

test('no value at all makes it throw or is taken for a record', () => {
	fc.assert(
		fc.property(fc.anything(), (value) => {
			expect(problemOf(value)).not.toBe('');
		}),
		{ numRuns: 500, seed: 1 },
	);
});

test('names of Object’s own do not stand in for members', () => {
	const stored = {
		id: 'x',
		name: 'n',
		note: '',
		keptAt: 0,
		work: record().work,
		result: Object.create(record().result),
	};
	expect(problemOf(stored)).toContain(' record.result.format ');
});
