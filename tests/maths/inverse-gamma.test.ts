import { expect, it } from 'vitest';
import { inverseGamma } from '../../shared/maths/inverse-gamma.ts';

// scipy 1.17 special.gammaincinv, frozen
it.each([
	[0.025, 1, 0.025317807984289876],
	[0.975, 2, 5.571643390938898],
	[0.025, 20.5, 12.607259319056254],
	[0.975, 499.9, 544.6610727600905],
	[0.975, 500, 544.7654563874568],
	[0.025, 999, 938.0040185617676],
	[0.975, 999, 1061.890150934382],
	[0.975, 1001, 1063.952136016302],
	[0.95, 1500, 1564.2683350064042],
	[0.001, 30000, 29467.604632153358],
	[0.975, 1e6, 1001960.9109654503],
])('the %s quantile of Gamma(%s) is %s to 1 part in 10⁹', (p, a, x) => {
	expect(Math.abs(inverseGamma(p, a) / x - 1)).toBeLessThan(1e-9);
});

it('is continuous where the series takes over', () => {
	for (const p of [0.005, 0.025, 0.5, 0.975, 0.995]) {
		const step = inverseGamma(p, 500) - inverseGamma(p, 500 - 1e-9);
		expect(Math.abs(step)).toBeLessThan(5e-7);
	}
});

it('throws outside', () => {
	expect(() => inverseGamma(0, 2)).toThrow(RangeError);
	expect(() => inverseGamma(1, 2)).toThrow(RangeError);
	expect(() => inverseGamma(0.5, 0)).toThrow(RangeError);
});
