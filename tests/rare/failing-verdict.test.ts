import { expect, test } from 'vitest';
import { failingVerdict } from '../../shared/rare/failing-verdict.ts';

const required = { share: 0.95, confidence: 0.95 };
/** So many draws with a weight each fail, the first of them not simulated; the others pass. */
const draws = (all: number, failing: number, weight: number, missing = 0) => ({
	failing: new Float64Array(all).fill(weight, 0, failing),
	shown: new Float64Array(all).fill(weight, missing, failing),
});

test('a failing share of 8.5 % carried by 340 of 4000 draws fails where 5 % may, one of 1.3 % holds', () => {
	expect(failingVerdict(draws(4000, 340, 1), 1 / 0.15, required)).toMatchObject({ decision: 'fails', limits: 'draws' });
	expect(failingVerdict(draws(4000, 520, 0.1), 1 / 0.15, required)).toMatchObject({
		decision: 'holds',
		limits: 'draws',
	});
});

test('where few draws carry it, it holds by a bound that is true for any weights, or is undecided', () => {
	const few = failingVerdict(draws(4000, 3, 0.001), 1 / 0.15, required);
	// 7/0.15 · ln 40/(3 · 3999) = 1.435 %, and what the three add
	expect(few).toMatchObject({ decision: 'holds', limits: 'bound' });
	expect(few.high).toBeGreaterThan(0.0143);
	expect(few.high).toBeLessThan(0.0145);
	expect(failingVerdict(draws(4000, 0, 0), 1 / 0.15, { ...required, share: 0.99 }).decision).toBe('undecided');
	expect(failingVerdict(draws(0, 0, 0), 1, required).decision).toBe('undecided');
});

test('340 of 4000 that fail are too many for 5 %; where 300 of them could not be simulated that is not shown', () => {
	const { low, high } = failingVerdict(draws(4000, 340, 1), 1 / 0.15, required);
	const found = failingVerdict(draws(4000, 340, 1, 300), 1 / 0.15, required);
	expect(found.decision).toBe('undecided');
	expect(found.high).toBe(high);
	expect(found.low).toBeLessThan(0.01);
	expect(low).toBeGreaterThan(0.07);
});

test('draws that all fail alike tell of no spread: at least so many fail as any distribution leaves', () => {
	const { decision, low, high, limits } = failingVerdict(draws(100, 100, 1), 1 / 0.15, required);
	expect(limits).toBe('bound');
	// 1 − 7/0.15 · ln 40/(3 · 99)
	expect(low).toBeCloseTo(1 - ((7 / 0.15) * Math.log(40)) / 297, 12);
	expect(high).toBe(1);
	expect(decision).toBe('fails');
});
