import { expect, test } from 'vitest';
import { emptyStudy } from '../../shared/study/merge.ts';
import { pairedRates } from '../../shared/study/paired-rates.ts';

function place(
	units: number,
	events: (unit: number, choice: number) => number,
	name: 'early' | 'earlyChance' = 'early',
) {
	const study = emptyStudy(units, 1);
	for (let unit = 0; unit < units; unit++) {
		for (const choice of [0, 1]) {
			study.columns.sectors[unit * 2 + choice] = 100;
			study.columns[name][unit * 2 + choice] = events(unit, choice);
		}
	}
	return { study, finished: Uint32Array.from({ length: units }, (_, i) => i), point: 0, level: 0.95, resamples: 500 };
}

test('events in every second drive against every fifth: ratio 2.5, with an interval that holds it', () => {
	const { ratio, interval, withoutEvents } = pairedRates(
		place(400, (unit, choice) => (choice === 0 ? Number(unit % 2 === 0) : Number(unit % 5 === 0))),
		'counted',
	);
	expect(ratio).toBeCloseTo(2.5, 12);
	expect(withoutEvents).toBeNull();
	expect(interval?.[0]).toBeGreaterThan(1.8);
	expect(interval?.[0]).toBeLessThan(2.5);
	expect(interval?.[1]).toBeLessThan(3.6);
});

test('where one has no events there is no interval and it is said which; where neither has, no ratio', () => {
	expect(
		pairedRates(
			place(50, (_, choice) => choice),
			'counted',
		),
	).toEqual({
		ratio: 0,
		interval: null,
		withoutEvents: 'halfBus',
		few: false,
	});
	expect(
		pairedRates(
			place(50, () => 0),
			'counted',
		),
	).toMatchObject({ ratio: null, withoutEvents: 'both' });
});

test('a computed rate that one drive carries gets no interval', () => {
	const chances = (unit: number, choice: number) => (unit === 3 && choice === 0 ? 1e-2 : 1e-9);
	expect(pairedRates(place(300, chances, 'earlyChance'), 'computed')).toMatchObject({ interval: null, few: true });
});

test('five thousand drives are resampled in groups of five, to the same ratio', () => {
	const { ratio, interval } = pairedRates(
		place(5000, (unit, choice) => Number(unit % (choice + 2) === 0)),
		'counted',
	);
	expect(ratio).toBeCloseTo(2500 / 1667, 12);
	expect(interval?.[0]).toBeLessThan(1.5);
	expect(interval?.[1]).toBeGreaterThan(1.5);
});
