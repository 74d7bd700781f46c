import { expect, test } from 'vitest';
import { fewestRuns, fraction, strengthOf } from '../../shared/envelope/fraction.ts';

/** Whether every choice of `strength` factors has all its combinations, each equally often. */
function isBalanced(runs: readonly (readonly number[])[], strength: number): boolean {
	const factors = runs[0]?.length ?? 0;
	const sets = Array.from({ length: 2 ** factors }, (_, set) => set).filter(
		(set) => [...set.toString(2)].filter((bit) => bit === '1').length === strength,
	);
	return sets.every((set) => {
		const counts = new Map<string, number>();
		for (const run of runs) {
			const key = run.filter((_, factor) => (set >> factor) & 1).join();
			counts.set(key, (counts.get(key) ?? 0) + 1);
		}
		return counts.size === 2 ** strength && new Set(counts.values()).size === 1;
	});
}

test('three conditions with room for 8 runs are all 8 combinations, each once', () => {
	const runs = fraction(3, 8);
	expect(new Set(runs.map(String)).size).toBe(8);
	expect(strengthOf(3, 8)).toBe(Number.POSITIVE_INFINITY);
	expect(fraction(0, 8)).toEqual([[]]);
});

test.each([
	[4, 8, 8, 3],
	[7, 16, 16, 3],
	[7, 8, 8, 2],
	[7, 40, 32, 3],
	[6, 33, 32, 3],
	[5, 3, 8, 2],
])(
	'%i conditions and room for %i: %i runs that keep any %i in all combinations equally often',
	(factors, most, count, strength) => {
		const runs = fraction(factors, most);
		expect(runs).toHaveLength(count);
		expect(new Set(runs.map(String)).size).toBe(count);
		expect(strengthOf(factors, count)).toBe(strength);
		expect(isBalanced(runs, strength)).toBe(true);
	},
);

test('7 conditions need at least 8 runs, 3 need 4', () => {
	expect([fewestRuns(7), fewestRuns(3), fewestRuns(1), fewestRuns(0)]).toEqual([8, 4, 2, 1]);
});
