import { describe, expect, it } from 'vitest';
import { rateRatio } from '../../shared/statistics/rate-ratio.ts';

const trials = new Array<number>(200).fill(24);
const everyNth = (n: number, events: number): number[] => trials.map((_, unit) => (unit % n === 0 ? events : 0));

describe('ratio of rates', () => {
	it('of 2 events in every 5th unit to 1 in every 5th is 2 exactly, with no width: the same units carry both', () => {
		const { ratio, interval } = rateRatio({ events: everyNth(5, 2), trials }, { events: everyNth(5, 1), trials });
		expect(ratio).toBeCloseTo(2, 14);
		expect(interval?.low).toBeCloseTo(2, 12);
		expect(interval?.high).toBeCloseTo(2, 12);
	});

	it('of 40 against 20 affected units, none in common, has about the width of the delta method', () => {
		// var ln ratio = 1/40 + 1/20 for rare events: ×/÷ e^(1.96 · 0.274) = 1.71
		const second = trials.map((_, unit) => (unit % 10 === 1 ? 1 : 0));
		const { ratio, interval } = rateRatio({ events: everyNth(5, 1), trials }, { events: second, trials });
		expect(ratio).toBeCloseTo(2, 14);
		expect(interval?.low).toBeGreaterThan(2 / 1.9);
		expect(interval?.low).toBeLessThan(2 / 1.5);
		expect(interval?.high).toBeGreaterThan(2 * 1.5);
		expect(interval?.high).toBeLessThan(2 * 2.1);
	});

	it('the same seed gives the same limits, another one others', () => {
		const first = { events: everyNth(5, 1), trials };
		const second = { events: everyNth(3, 1), trials };
		expect(rateRatio(first, second, { seed: 'a' })).toEqual(rateRatio(first, second, { seed: 'a' }));
		expect(rateRatio(first, second, { seed: 'b' })).not.toEqual(rateRatio(first, second, { seed: 'a' }));
	});

	it('says which side has no events and gives no interval then, nor from a single affected unit', () => {
		const none = { events: everyNth(5, 0), trials };
		const some = { events: everyNth(5, 1), trials };
		expect(rateRatio(none, some)).toEqual({ ratio: 0, interval: null, withoutEvents: 'first' });
		expect(rateRatio(some, none)).toEqual({ ratio: Infinity, interval: null, withoutEvents: 'second' });
		expect(rateRatio(none, none)).toEqual({ ratio: Number.NaN, interval: null, withoutEvents: 'both' });
		const one = { events: trials.map((_, unit) => (unit === 7 ? 1 : 0)), trials };
		expect(rateRatio(one, one)).toEqual({ ratio: 1, interval: null, withoutEvents: 'neither' });
		expect(() => rateRatio(some, { events: [1], trials: [2] })).toThrow(RangeError);
	});

	it('stays open where one resample in seven has none of a side’s events, and leaves out those with none of either', () => {
		// two of 200 units are in none of 200 draws with probability 0.99²⁰⁰ = 13 %, beyond the tail of 2.5 %
		const two = { events: trials.map((_, unit) => (unit === 7 || unit === 90 ? 1 : 0)), trials };
		const some = { events: everyNth(5, 1), trials };
		expect(rateRatio(some, two).interval?.high).toBe(Infinity);
		expect(rateRatio(some, two).interval?.low).toBeGreaterThan(1);
		expect(rateRatio(two, some).interval?.low).toBe(0);
		expect(rateRatio(two, two)).toEqual({ ratio: 1, interval: { low: 1, high: 1 }, withoutEvents: 'neither' });
	});
});
