import type { Terminal } from '../../src/command-line/terminal.ts';

/** A terminal that keeps what it is told; `interrupt` is Ctrl-C. */
export function fakeTerminal(isLive = false) {
	const kept = { out: '', err: '' };
	let onInterrupt = (): void => {};
	const terminal: Terminal = {
		out: (text) => {
			kept.out += text;
		},
		err: (text) => {
			kept.err += text;
		},
		isLive,
		onInterrupt(callback) {
			onInterrupt = callback;
			return () => {
				onInterrupt = () => {};
			};
		},
	};
	return { terminal, kept, interrupt: () => onInterrupt() };
}
