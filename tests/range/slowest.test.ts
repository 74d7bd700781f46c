import { expect, test } from 'vitest';
import { bracket, nextSpeed } from '../../shared/range/slowest.ts';

const looked = (holding: readonly number[], failing: readonly number[], undecided: readonly number[] = []) => [
	...holding.map((speed) => ({ speed, decision: 'holds' as const })),
	...failing.map((speed) => ({ speed, decision: 'fails' as const })),
	...undecided.map((speed) => ({ speed, decision: 'undecided' as const })),
];

test('the bracket is the first speed from above that does not hold, whatever holds below it', () => {
	expect(bracket(looked([3000, 2000, 800], [1400, 600]))).toEqual({ fastest: 3000, holds: 2000, fails: 1400 });
	expect(bracket(looked([3000, 2000], [], [1400]))).toEqual({ fastest: 3000, holds: 2000, fails: 1400 });
	expect(bracket(looked([3000, 600], []))).toEqual({ fastest: 3000, holds: 600, fails: null });
	expect(bracket(looked([], [3000, 600]))).toEqual({ fastest: null, holds: null, fails: null });
});

test('where the torque is out of reach at the fastest speeds, the bracket starts below them', () => {
	expect(bracket(looked([2000, 1400], [3000, 600]))).toEqual({ fastest: 2000, holds: 1400, fails: 600 });
});

test('halving 600…3000 rpm down to 1 % finds a limit of 1234.5 rpm within 1 % from above, in 8 looks', () => {
	let looks = 0;
	const seen = looked([3000], [600]);
	for (let next = nextSpeed(bracket(seen), 0.01, 'linear'); next !== null; looks += 1) {
		seen.push({ speed: next, decision: next >= 1234.5 ? 'holds' : 'fails' });
		next = nextSpeed(bracket(seen), 0.01, 'linear');
	}
	const { holds } = bracket(seen);
	expect(holds).toBeGreaterThanOrEqual(1234.5);
	expect(holds).toBeLessThanOrEqual(1234.5 * 1.01);
	// 2400/2⁸ = 9.4 rpm is the first width below 1 %
	expect(looks).toBe(8);
});

test('with logarithmic steps the speed between 600 and 2400 rpm is 1200', () => {
	expect(nextSpeed({ holds: 2400, fails: 600 }, 0.01, 'logarithmic')).toBe(1200);
});

test('nothing is searched where a side is open or the bracket is narrow enough', () => {
	expect(nextSpeed({ holds: null, fails: 3000 }, 0.01, 'linear')).toBeNull();
	expect(nextSpeed({ holds: 600, fails: null }, 0.01, 'linear')).toBeNull();
	expect(nextSpeed({ holds: 1000, fails: 990 }, 0.01, 'linear')).toBeNull();
});
