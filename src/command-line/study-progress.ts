import { progressLine } from './progress-line.ts';
import type { StudyProgress, StudyWork } from './study-outcome.ts';
import type { Terminal } from './terminal.ts';

/** The progress of a study, and then of each calculation that its report wants. */
export function studyProgress(terminal: Terminal, { units, until }: Pick<StudyWork, 'units' | 'until'>) {
	let line = progressLine(terminal, units, until?.rule !== 'number');
	let shown = '';
	return {
		show({ further, ...progress }: StudyProgress): void {
			const next = further ? `${further.name} ${further.asked}` : '';
			if (further && next !== shown) {
				line.clear();
				line = progressLine(terminal, further.asked, false, `${further.name}: `);
				shown = next;
			}
			line.show(progress);
		},
		clear: (): void => line.clear(),
	};
}
