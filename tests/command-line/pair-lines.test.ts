import { expect, test } from 'vitest';
import type { PairedRates } from '../../shared/study/result.ts';
import { pairLines } from '../../src/command-line/pair-lines.ts';
import { choiceFigures, pointResult } from '../page/study-fixture.ts';

/** What is said of the rates where so many sectors were measured with each choice. */
function rateWords(sectors: readonly [number, number], counted: Partial<PairedRates>, computed?: Partial<PairedRates>) {
	const [halfBus, virtualNeutral] = sectors.map((measured) => choiceFigures(0, 2, { sectors: measured }));
	if (!halfBus || !virtualNeutral) expect.unreachable();
	const point = pointResult('slow', 900, { halfBus, virtualNeutral }, 'not shown');
	const none: PairedRates = { ratio: null, interval: null, withoutEvents: 'both', few: false };
	const rates = { counted: { ...none, ...counted }, computed: computed ? { ...none, ...computed } : null };
	return pairLines({ ...point, paired: { ...point.paired, rates } })
		.at(-1)
		?.replaceAll(/\s+/g, ' ');
}

test('a choice without a measured sector has no events to compare, and is not said to be without them', () => {
	const onlyOther = { withoutEvents: 'halfBus' } as const;
	expect(rateWords([0, 2880], {}, onlyOther)).toBe('No sector was measured with half-bus: no ratio of rates.');
	expect(rateWords([2880, 0], {})).toBe('No sector was measured with virtual neutral: no ratio of rates.');
	expect(rateWords([0, 0], {}, {})).toBe('No sector was measured with either choice: no ratio of rates.');
});

test('of measured sectors without events it is said whose they are', () => {
	expect(rateWords([2880, 2880], {}, { withoutEvents: 'halfBus' })).toBe(
		'No event counted with either choice: no ratio of rates. No event computed with half-bus: there is no ratio of rates, only that the other has some.',
	);
	expect(rateWords([2880, 2880], {}, {})).toMatch(/^No event counted or to be expected with either choice: /);
});
