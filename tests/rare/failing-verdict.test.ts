import { expect, test } from 'vitest';
import { failingVerdict } from '../../shared/rare/failing-verdict.ts';

const required = { share: 0.95, confidence: 0.95 };
/** So many draws with a weight each, the others passing. */
const draws = (all: number, failing: number, weight: number): Float64Array =>
	new Float64Array(all).fill(weight, 0, failing);

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
	expect(failingVerdict(new Float64Array(0), 1, required).decision).toBe('undecided');
});
