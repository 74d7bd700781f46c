import { expect, test } from 'vitest';
import { pairedFigures } from '../../shared/study/paired-figures.ts';
import { tally } from '../../src/page/model/tally.ts';

const of = (first: readonly number[], second: readonly number[]) =>
	tally({
		...pairedFigures(Float64Array.from(first), Float64Array.from(second), 0.95),
	} as Parameters<typeof tally>[0]);

test('of four drives half-bus has the smaller error in two, virtual neutral in one, and one is equal', () => {
	const { halfBus, virtualNeutral, ties, of: all } = of([1, 1, 3, 2], [2, 2, 2, 2]) ?? expect.unreachable();
	expect([halfBus.hundred, virtualNeutral.hundred, ties, all]).toEqual([
		50,
		25,
		'equal in 1',
		'of 4 drives run with both',
	]);
	expect(halfBus.words.replaceAll('\u00a0', ' ')).toBe('2 (50.0 %)');
	expect(of([1, 2], [2, 1])?.ties).toBe('');
	expect(of([], [])).toBeNull();
});
