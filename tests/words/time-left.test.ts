import { expect, test } from 'vitest';
import { timeLeft } from '../../shared/words/time-left.ts';

test('what is left takes as long as what is done did, in seconds up to a minute and a half', () => {
	expect(timeLeft(10, 200, 1000)).toBe('about 40\u00a0s left');
	expect(timeLeft(10, 101, 1000)).toBe('about 90\u00a0s left');
	expect(timeLeft(10, 100, 1000)).toBe('about 2\u00a0min left');
	expect(timeLeft(60, 10, 1000)).toBe('about 99\u00a0min left');
});

test('nothing is told of the first two seconds, before anything is done, and at the end', () => {
	expect(timeLeft(1.9, 200, 1000)).toBe('');
	expect(timeLeft(10, 0, 1000)).toBe('');
	expect(timeLeft(10, 1000, 1000)).toBe('');
});
