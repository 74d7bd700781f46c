import type { WorkProgress } from '../host/run-variants.ts';
import { progressLine } from './progress-line.ts';
import type { Terminal } from './terminal.ts';

/** A progress line for work that grows as a search goes on. */
export function stagedProgress(terminal: Terminal) {
	let asked = 0;
	let line = progressLine(terminal, asked);
	return {
		show(progress: WorkProgress): void {
			if (progress.asked !== asked) {
				line.clear();
				asked = progress.asked;
				line = progressLine(terminal, asked);
			}
			line.show(progress);
		},
		clear: (): void => line.clear(),
	};
}
