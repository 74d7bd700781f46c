import alea from 'seedrandom/lib/alea.js';
import { expect, it } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { correlation, criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';

it("seedrandom's alea begins with its published vectors for 'hello.'", () => {
	// README of seedrandom 3.0.5
	const next = alea('hello.');
	expect(next()).toBe(0.4783254903741181);
	expect(next.double()).toBe(0.8297006866124559);
});

it('first draws of 20,000 adjacent units are uniform and uncorrelated (|r| < 3/√n) at lags 1, 2, 10 and 100', () => {
	const first = Float64Array.from({ length: 20_000 }, (_, unit) => stream('demo', 'parts', unit).double());
	expect(distanceFrom(first, (x) => x)).toBeLessThan(criticalDistance(first.length));
	for (const lag of [1, 2, 10, 100]) {
		expect(Math.abs(correlation(first.subarray(lag), first.subarray(0, -lag)))).toBeLessThan(
			3 / Math.sqrt(first.length),
		);
	}
});

it('streams differ by seed, purpose and index, also where their labels read alike', () => {
	const streams = [
		stream('a', 'parts', 11),
		stream('a', 'parts', 1),
		stream('a', 'start', 1, 1),
		stream('a', 'start', 11),
		stream('a 1', 'parts', 1),
		stream('b', 'parts', 1),
		stream('', 'parts', 1),
	];
	expect(new Set(streams.map((each) => each.double())).size).toBe(streams.length);
});
