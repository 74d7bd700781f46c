import { count } from '../../shared/words/figures.ts';
import { timeLeft } from '../../shared/words/time-left.ts';
import type { Terminal } from './terminal.ts';

interface Progress {
	readonly finished: number;
	readonly failed: number;
	/** Where it is not what was asked at first. */
	readonly asked?: number;
}

/**
 * One line that is written over while work goes on, for a person watching; nothing in a pipe.
 *
 * @param isCeiling whether the work may end before all drives asked are done, so that no time can be told
 * @param of what goes on, where it is not the command's own work
 */
export function progressLine(terminal: Terminal, asked: number, isCeiling = false, of = '') {
	const began = performance.now();
	let width = 0;
	const write = (text: string): void => {
		terminal.err(`\r${text.padEnd(width)}`);
		width = text.length;
	};
	return {
		show({ finished, failed, asked: all = asked }: Progress): void {
			if (!terminal.isLive) return;
			const done = finished + failed;
			const left = timeLeft((performance.now() - began) / 1000, done, all);
			const failures = failed > 0 ? `, ${count(failed)} failed` : '';
			write(
				isCeiling
					? `${of}${count(done)} drives, at most ${count(all)}${failures}`
					: `${of}${count(done)} of ${count(all)} drives${failures}${left && `, ${left}`}`,
			);
		},
		clear(): void {
			if (!terminal.isLive || width === 0) return;
			write('');
			terminal.err('\r');
		},
	};
}

/** A progress line for work that grows as a search goes on, or falls where runs end early. */
export const stagedProgress = (terminal: Terminal) => progressLine(terminal, 0);
