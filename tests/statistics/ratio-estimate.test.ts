import gammaincinv from '@stdlib/math-base-special-gammaincinv';
import { describe, expect, it } from 'vitest';
import { clopperPearson } from '../../shared/statistics/clopper-pearson.ts';
import { garwoodInterval } from '../../shared/statistics/garwood-interval.ts';
import { ratioEstimate } from '../../shared/statistics/ratio-estimate.ts';

describe('rate over units', () => {
	it('of the worked example lies nearer its lower limit', () => {
		const { ratio, low, high, boundOn } = ratioEstimate([0, 1, 2, 0, 3, 1, 0, 0], [10, 12, 9, 11, 10, 8, 12, 10]);
		expect(low).toBeGreaterThan(0);
		expect(ratio - low).toBeLessThan(high - ratio);
		expect(boundOn).toBe('trials');
	});

	it('its standard error exceeds the binomial one by the design effect 1 + (m − 1)ρ where units are all or nothing', () => {
		// 20 of 100 units with all of 20 trials: ρ = 1, design effect 20
		const events = Array.from({ length: 100 }, (_, unit) => (unit < 20 ? 20 : 0));
		const { ratio, standardError } = ratioEstimate(events, new Array(100).fill(20));
		const binomial = Math.sqrt((ratio * (1 - ratio)) / 2000);
		expect((standardError / binomial) ** 2).toBeCloseTo((20 * 100) / 99, 10);
	});

	it('without events bounds the share of affected units: 0 of 1000 gives 0.00368208', () => {
		const none = ratioEstimate(new Float64Array(1000), new Float64Array(1000).fill(96));
		expect(none).toMatchObject({ ratio: 0, low: 0, boundOn: 'units' });
		expect(none.high).toBeCloseTo(0.00368208, 8);
	});

	it('where every unit is alike falls back on the exact limits of the pooled trials', () => {
		expect(ratioEstimate([1, 1, 1], [10, 10, 10])).toMatchObject({ ...clopperPearson(3, 30), standardError: 0 });
		expect(ratioEstimate([10, 10], [10, 10])).toMatchObject({ ratio: 1, high: 1 });
	});

	it('one unit with events, or none at all, bounds nothing; a lost unit without trials is allowed', () => {
		expect(ratioEstimate([2], [10])).toMatchObject({ ratio: 0.2, low: 0, high: 1 });
		expect(ratioEstimate([], [])).toMatchObject({ ratio: Number.NaN, low: 0, high: 1 });
		expect(ratioEstimate([0, 1, 0, 2], [10, 10, 0, 10]).ratio).toBeCloseTo(0.1, 15);
	});

	it('a single event keeps a lower limit above 0 and an upper one below 12 times the rate', () => {
		const events = new Float64Array(500);
		events[123] = 1;
		const { ratio, low, high } = ratioEstimate(events, new Float64Array(500).fill(24));
		expect(low).toBeGreaterThan(0);
		expect(high / ratio).toBeGreaterThan(5);
		expect(high / ratio).toBeLessThan(12);
	});

	it('single events have the lower limit of Fay and Feuer, Garwood exact 4.1154 of 9, and from ten units on half way to the next', () => {
		// nine and twelve of very many units with one event each: dispersion 1 but for 1/n
		const few = (affected: number): number => {
			const events = new Float64Array(1e5);
			events.fill(1, 0, affected);
			return ratioEstimate(events, new Float64Array(1e5).fill(10)).low * 1e6;
		};
		// Garwood 1936: 2.5 % limit of a count of 9 is 4.1154, of 12 is 6.2006, of 13 is 6.9220 − recomputed
		expect(few(9)).toBeCloseTo(4.1154, 3);
		expect(few(12)).toBeCloseTo((garwoodInterval(12).low + gammaincinv(0.025, 13)) / 2, 3);
	});

	it('single events, four or more, have the upper limit half way between Garwood’s and that of one less', () => {
		const upper = (affected: number): number => {
			const events = new Float64Array(1e5);
			events.fill(1, 0, affected);
			return ratioEstimate(events, new Float64Array(1e5).fill(10)).high * 1e6;
		};
		for (const affected of [4, 12]) {
			const { high } = garwoodInterval(affected);
			expect(upper(affected)).toBeCloseTo((high + gammaincinv(0.975, affected)) / 2, 2);
		}
		const limits = Array.from({ length: 15 }, (_, before) => upper(before + 1));
		expect(limits).toEqual(limits.toSorted((a, b) => a - b));
	});

	it('single events: summed over the Poisson distribution 95 % limits hold between 93 % and 96.3 % at every mean from 10 to 40, as no limits of whole numbers hold 95 % at all, and 94.9 % over them', () => {
		const units = 1e4;
		const limits = Array.from({ length: 90 }, (_, affected) => {
			const events = new Float64Array(units);
			events.fill(1, 0, affected);
			const { low, high } = ratioEstimate(events, new Float64Array(units).fill(100));
			return { low: low * units * 100, high: high * units * 100 };
		});
		const held: number[] = [];
		for (let mean = 10; mean <= 40; mean += 0.05) {
			let probability = Math.exp(-mean);
			let sum = 0;
			limits.forEach(({ low, high }, count) => {
				if (count > 0 && low <= mean && mean <= high) sum += probability;
				probability *= mean / (count + 1);
			});
			held.push(sum);
		}
		expect(Math.min(...held)).toBeGreaterThan(0.93);
		expect(Math.max(...held)).toBeLessThan(0.963);
		expect(held.reduce((sum, each) => sum + each) / held.length).toBeCloseTo(0.949, 2);
	});

	it('refuses more events than trials, broken counts and unequal lists', () => {
		expect(() => ratioEstimate([2], [1])).toThrow(RangeError);
		expect(() => ratioEstimate([0.5], [1])).toThrow(RangeError);
		expect(() => ratioEstimate([1], [1, 2])).toThrow(RangeError);
	});
});
