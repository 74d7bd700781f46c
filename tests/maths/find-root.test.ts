import { expect, it } from 'vitest';
import { findRoot } from '../../shared/maths/find-root.ts';

it.each([
	['x² − 2', (x: number) => x * x - 2, 0, 2, Math.SQRT2],
	['cos x − x', (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
	['x⁹ (flat)', (x: number) => (x - 0.3) ** 9, 0, 1, 0.3],
	['a step', (x: number) => (x < 1e-7 ? -1 : 1), 0, 1, 1e-7],
	['−x³ + 1e-30', (x: number) => 1e-30 - x ** 3, 0, 1, 1e-10],
])('finds the root of %s to 1 part in 10¹⁴ (flat: 10⁻²)', (name, f, low, high, root) => {
	expect(Math.abs(findRoot(f, low, high) / root - 1)).toBeLessThan(name.includes('flat') ? 1e-2 : 1e-14);
});

it('takes a root at either end, and throws without a change of sign', () => {
	expect(findRoot((x) => x, 0, 1)).toBe(0);
	expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
	expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow(/no change of sign/);
});
