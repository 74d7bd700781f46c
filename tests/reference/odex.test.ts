import { Outcome, Solver } from 'odex';
import { describe, expect, it } from 'vitest';

// The oracle itself, on published problems, before anything is judged by it.

function solve(f: (x: number, y: number[]) => number[], y: number[], end: number, tolerance: number): number[] {
	const solver = new Solver(y.length);
	solver.absoluteTolerance = solver.relativeTolerance = tolerance;
	const { y: last, outcome } = solver.solve(f, 0, y, end);
	expect(outcome).toBe(Outcome.Converged);
	return last;
}

/** Restricted three-body problem, position and velocity in the rotating frame. */
function arenstorf(_t: number, [x = 0, y = 0, vx = 0, vy = 0]: number[]): number[] {
	const mu = 0.012277471;
	const own = 1 - mu;
	const d1 = ((x + mu) ** 2 + y ** 2) ** 1.5;
	const d2 = ((x - own) ** 2 + y ** 2) ** 1.5;
	return [
		vx,
		vy,
		x + 2 * vy - (own * (x + mu)) / d1 - (mu * (x - own)) / d2,
		y - 2 * vx - (own * y) / d1 - (mu * y) / d2,
	];
}

describe('odex', () => {
	// Hairer, Nørsett, Wanner: Solving Ordinary Differential Equations I, section II.0 (constants also in
	// the R package deSolve, Arenstorf.R). Recomputed with odex 2.0.4: 1.7·10⁻⁷ and 5.7·10⁻¹¹ off.
	it.each([
		[1e-9, 1e-6],
		[1e-12, 1e-9],
	])('brings the Arenstorf orbit back to its start: tolerance %d, position within %d', (tolerance, allowed) => {
		const start = [0.994, 0, 0, -2.0015851063790824];
		const end = solve(arenstorf, start, 17.065216560157964, tolerance);
		expect(Math.hypot((end[0] ?? 0) - 0.994, end[1] ?? 0)).toBeLessThan(allowed);
	});

	// y'' = ((1 − y²)y' − y)/ε with ε = 0.1 from (2, 0): figures recomputed with another integrator
	it('takes van der Pol with ε = 0.1 to (−1.58184082317, 0.97844891584) at t = 2, to 10⁻⁹', () => {
		const vanDerPol = (_t: number, [y = 0, v = 0]: number[]): number[] => [v, ((1 - y ** 2) * v - y) / 0.1];
		const [y, v] = solve(vanDerPol, [2, 0], 2, 1e-12);
		expect(Math.abs((y ?? 0) + 1.58184082317)).toBeLessThan(1e-9);
		expect(Math.abs((v ?? 0) - 0.97844891584)).toBeLessThan(1e-9);
	});
});
