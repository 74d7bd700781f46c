import { afterEach, expect, test, vi } from 'vitest';
import { progressLine, stagedProgress } from '../../src/command-line/progress-line.ts';

afterEach(() => vi.restoreAllMocks());

/** A terminal, what it was told last, and a clock. */
function watched() {
	let now = 0;
	let told = '';
	vi.spyOn(performance, 'now').mockImplementation(() => now);
	return {
		terminal: { isLive: true, err: (text: string) => (told = text), out: () => {} } as never,
		at: (seconds: number) => (now = 1000 * seconds),
		told: () => told.replaceAll(/[\u00a0\u202f]/g, ' ').trim(),
	};
}

test('where runs end early, the time left is that of all drives done since the start', () => {
	const { terminal, at, told } = watched();
	const line = stagedProgress(terminal);
	at(60);
	line.show({ finished: 6000, failed: 0, asked: 16_000 });
	at(70);
	line.show({ finished: 7000, failed: 0, asked: 10_000 });
	expect(told()).toBe('7000 of 10 000 drives, about 30 s left');
});

test('work that may end before its ceiling tells no time', () => {
	const { terminal, at, told } = watched();
	const line = progressLine(terminal, 1000, true);
	at(10);
	line.show({ finished: 490, failed: 10 });
	expect(told()).toBe('500 drives, at most 1000, 10 failed');
});
