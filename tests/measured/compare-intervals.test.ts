import { expect, test } from 'vitest';
import { compareIntervals, shownBelow } from '../../shared/measured/compare-intervals.ts';
import { stream } from '../../shared/sampling/stream.ts';

/** Drives of 24 intervals about 60°, each with a shift of its own on alternate sectors. */
function drives(seed: string, count: number, spread: number): Float64Array<ArrayBuffer>[] {
	const next = stream(seed, 'drives');
	return Array.from({ length: count }, () => {
		const own = spread * (next.double() - 0.5);
		return Float64Array.from({ length: 24 }, (_, j) => 60 + (j % 2 ? own : -own) + next.double() - 0.5);
	});
}

test('what chance alone reaches is where the test begins to show a difference, not where p falls below twice that', () => {
	const level = 0.95;
	let between = 0;
	for (let i = 0; i < 120; i += 1) {
		const { shape } = compareIntervals(drives(`measured ${i}`, 4, 3), drives(`simulated ${i}`, 30, 1.6), level);
		if (shape.p >= shownBelow(level)) expect(shape.d).toBeLessThanOrEqual(shape.chance);
		else expect(shape.d).toBeGreaterThanOrEqual(shape.chance);
		if (shape.p >= shownBelow(level) && shape.p < 2 * shownBelow(level)) between += 1;
	}
	expect(between).toBeGreaterThan(0);
});
