import { expect, it } from 'vitest';
import { inverseBeta } from '../../shared/maths/inverse-beta.ts';

// scipy 1.17 special.betaincinv, frozen
it.each([
	[0.05, 4, 17, 0.0713538843086182],
	[0.95, 5, 16, 0.4010281173319745],
	[0.975, 1, 1000, 0.003682083896865671],
	[0.975, 3, 1e6, 7.224654345113813e-6],
	[0.025, 1e4, 1e6, 0.009708818299963727],
])('the %s quantile of Beta(%s, %s) is %s to 1 part in 10¹¹', (p, a, b, x) => {
	expect(Math.abs(inverseBeta(p, a, b) / x - 1)).toBeLessThan(1e-11);
});

it('agrees with the closed form 1 − (1 − p)^(1/b) of Beta(1, b) to 1 part in 10¹¹, b up to 10⁷', () => {
	for (const b of [1, 2, 10, 1e3, 1e5, 1e7]) {
		for (const p of [1e-6, 0.025, 0.5, 0.975]) {
			const exact = -Math.expm1(Math.log1p(-p) / b);
			expect(Math.abs(inverseBeta(p, 1, b) / exact - 1)).toBeLessThan(1e-11);
		}
	}
});

it('is 0 and 1 at the ends and throws outside', () => {
	expect(inverseBeta(0, 2, 3)).toBe(0);
	expect(inverseBeta(1, 2, 3)).toBe(1);
	expect(() => inverseBeta(1.1, 2, 3)).toThrow(RangeError);
	expect(() => inverseBeta(0.5, 0.5, 3)).toThrow(RangeError);
});
