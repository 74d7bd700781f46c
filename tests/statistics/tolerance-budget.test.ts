import { expect, test } from 'vitest';
import { type PartEffect, toleranceBudget } from '../../shared/statistics/tolerance-budget.ts';

/** Relative change of a divider's gain R2/(R1 + R2) of nominally `gain` with relative deviations of R1 and R2. */
const divider =
	(gain: number) =>
	(top: number, bottom: number): number => {
		const r1 = (1 - gain) * (1 + top);
		const r2 = gain * (1 + bottom);
		return r2 / (r1 + r2) / gain - 1;
	};
const uniform = 1 / Math.sqrt(3);
const effectsOf = (f: (top: number, bottom: number) => number, t: number): PartEffect[] => [
	{ low: f(-t, 0), high: f(t, 0), sdInHalfWidths: uniform },
	{ low: f(0, -t), high: f(0, t), sdInHalfWidths: uniform },
];

// Relative: exact worst case k(1 ± t)/[k(1 ± t) + (1 − k)(1 ∓ t)]; first order 2t(1 − k); root-sum-square √2 t(1 − k), a
// formula quoted from the NIST e-Handbook 2.5.5; uniform parts' deviation that over √3. All figures recomputed.
test('a divider of gain 0.1 with 1 % resistors: ±1.8 % summed, 1.272792 % root-sum-square, σ 0.734847 %, worst +1.814516 and −1.785714 %', () => {
	const f = divider(0.1);
	const budget = toleranceBudget(effectsOf(f, 0.01));
	// sensitivities at the limits bend by t² of themselves, 10⁻⁴
	expect(Math.abs(budget.extreme / 0.018 - 1)).toBeLessThan(2e-4);
	expect(Math.abs(budget.rootSumSquare / 0.01272792 - 1)).toBeLessThan(2e-4);
	expect(Math.abs(budget.standardDeviation / 0.00734847 - 1)).toBeLessThan(2e-4);
	expect(budget.raising).toEqual([-1, 1]);
	const board = (sign: 1 | -1): number => f(...(budget.raising.map((side) => side * sign * 0.01) as [number, number]));
	expect(board(1)).toBeCloseTo(0.01814516, 8);
	expect(board(-1)).toBeCloseTo(-0.01785714, 8);
});

test('a divider of gain ½ with 1 % resistors moves by 1 % exactly, and of gain 1/11 to 0.0925756 and 0.0892696', () => {
	expect(divider(0.5)(-0.01, 0.01)).toBeCloseTo(0.01, 12);
	expect(toleranceBudget(effectsOf(divider(0.5), 0.01)).extreme).toBeCloseTo(0.01, 6);
	const f = divider(1 / 11);
	expect((1 + f(-0.01, 0.01)) / 11).toBeCloseTo(0.0925756, 7);
	expect((1 + f(0.01, -0.01)) / 11).toBeCloseTo(0.0892696, 7);
});

test('with n equal parts the extreme is √n of the root-sum-square, and a part without effect has no worse side', () => {
	const equal = Array.from({ length: 16 }, () => ({ low: -1, high: 1, sdInHalfWidths: 0.5 }));
	const budget = toleranceBudget([...equal, { low: 0, high: 0, sdInHalfWidths: 1 }]);
	expect(budget).toMatchObject({ extreme: 16, rootSumSquare: 4, standardDeviation: 2 });
	expect(budget.raising.at(-1)).toBe(0);
});

test('no parts, no budget; an effect that is not known is refused', () => {
	expect(toleranceBudget([])).toEqual({ extreme: 0, rootSumSquare: 0, standardDeviation: 0, raising: [] });
	expect(() => toleranceBudget([{ low: Number.NaN, high: 1, sdInHalfWidths: 1 }])).toThrow(RangeError);
});
