import { describe, expect, it } from 'vitest';
import { Acceptances } from '../../shared/votes/acceptances.ts';

/** A sector's possible times of acceptance (s) and their probabilities. */
type Sector = readonly (readonly [time: number, probability: number])[];

function acceptancesOf(sectors: readonly Sector[]): Acceptances {
	const acceptances = new Acceptances();
	acceptances.clear(sectors.flat().length);
	for (const sector of sectors) {
		acceptances.openSector();
		for (const [time, probability] of sector) acceptances.add(time, probability);
	}
	return acceptances;
}

/** The firmware's clock, interval by interval: how far off the last of so many crossings commutates (s), 60° taking `sector` seconds. */
function commutationError(crossings: readonly number[], sector: number, share: number, compensation: number): number {
	const times = crossings.map((off, n) => n * sector + off + compensation);
	const intervals = times.slice(1).map((time, n) => time - (times[n] as number));
	const mean = intervals.reduce((sum, interval) => sum + interval, 0) / intervals.length;
	const last = times.at(-1) as number;
	const commutation = last + Math.max(0, mean * share - compensation);
	return commutation - (crossings.length - 1) * sector - sector * share;
}

describe('acceptances', () => {
	const sector = 1e-3;
	const share = 0.5;

	it.each([1, 2, 6])('of sure times give what the clock does with them, %i intervals averaged', (averaged) => {
		const crossings = [2, -31, 40, 8, -12, 25, 61, -90, 17, 3, 55, -44, 29, 70].map((off) => off * 1e-6);
		const compensation = 80e-6;
		const rule = { averaged, share, atOnce: compensation - share * sector };
		const errors = crossings
			.slice(averaged)
			.map((_, n) => commutationError(crossings.slice(n, n + averaged + 1), sector, share, compensation));
		for (const limit of [5e-6, 20e-6, 45e-6, 90e-6, 200e-6]) {
			const all = acceptancesOf(crossings.map((off) => [[off, 1]])).within({ ...rule, limit });
			// the first ones, whose intervals began before, with those of their kind that stand in
			const first = crossings.slice(0, averaged).filter((off, n) => {
				const stand = crossings[n - averaged + 6 * Math.ceil((averaged - n) / 6)] as number;
				return Math.abs(off + ((off - stand) * share) / averaged) <= limit;
			}).length;
			expect(all).toBeCloseTo(first + errors.filter((error) => Math.abs(error) <= limit).length, 12);
		}
	});

	it('commutate at once where the delay to take off is longer than the wait', () => {
		const crossings = [0, 120e-6, -150e-6, 10e-6, -60e-6, 90e-6, 30e-6, -200e-6];
		const compensation = 540e-6;
		const rule = { averaged: 1, share, atOnce: compensation - share * sector };
		const errors = crossings
			.slice(1)
			.map((_, n) => commutationError(crossings.slice(n, n + 2), sector, share, compensation));
		expect(errors.filter((error) => error > 0).length).toBeGreaterThan(2);
		for (const limit of [50e-6, 100e-6, 130e-6, 200e-6]) {
			const stand = crossings[5] as number;
			const first = Math.abs(Math.max(rule.atOnce, -stand * share)) <= limit ? 1 : 0;
			expect(acceptancesOf(crossings.map((off) => [[off, 1]])).within({ ...rule, limit })).toBeCloseTo(
				first + errors.filter((error) => Math.abs(error) <= limit).length,
				12,
			);
		}
	});

	it('of uncertain times sum over every combination of a sector and the one its intervals began with', () => {
		const sectors: Sector[] = Array.from({ length: 9 }, (_, n) => [
			[-50e-6 + 7e-6 * n, 0.2],
			[4e-6 * n, 0.5],
			[60e-6 - 3e-6 * n, 0.3],
		]);
		for (const averaged of [1, 3]) {
			for (const limit of [10e-6, 30e-6, 60e-6]) {
				let sum = 0;
				for (const [n, own] of sectors.entries()) {
					const before = sectors[n < averaged ? n - averaged + 6 : n - averaged] as Sector;
					for (const [c, p] of own)
						for (const [b, q] of before) if (Math.abs(c + ((c - b) * share) / averaged) <= limit) sum += p * q;
				}
				expect(acceptancesOf(sectors).within({ limit, averaged, share, atOnce: -1 })).toBeCloseTo(sum, 12);
			}
		}
	});

	it('leave a sector without acceptance out, and the chance of none; intervals that would begin with it are ideal', () => {
		const rule = { limit: 1e-5, averaged: 1, share, atOnce: -1 };
		const sectors: Sector[] = [[[0, 1]], [], [[9e-6, 1]], [[0, 0.75]], [[0, 1]], [], [[2e-5, 1]]];
		// the third would lie 1.35·10⁻⁵ s off after one of no error, the last is off by itself
		expect(acceptancesOf(sectors).within(rule)).toBeCloseTo(1 + 1 + 0.75 + 1, 12);
	});

	it('without a wait, at the end of the advance, are the crossings themselves', () => {
		const crossings = [0, 3e-6, -8e-6, 2e-6];
		const rule = { limit: 5e-6, averaged: 6, share: 0, atOnce: 0 };
		expect(acceptancesOf(crossings.map((off) => [[off, 1]])).within(rule)).toBe(3);
	});
});
