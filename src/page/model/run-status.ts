import type { StudyResult } from '../../../shared/study/result.ts';
import { studySentence } from '../../../shared/study/sentence.ts';
import { capital } from '../../../shared/words/capital.ts';
import { count } from '../../../shared/words/figures.ts';

/** What the engine is doing for the page. Figures on show are kept apart: they outlive the run that made them. */
export type RunStatus =
	| { readonly state: 'idle'; readonly note: string }
	| { readonly state: 'previewing'; readonly finished: number; readonly asked: number }
	| {
			readonly state: 'running';
			readonly finished: number;
			readonly failed: number;
			readonly asked: number;
			/** Since it began. */
			readonly seconds: number;
	  }
	| { readonly state: 'done'; readonly seconds: number }
	| { readonly state: 'failed'; readonly message: string };

/** Drives are being simulated, for a preview or in full. */
export const isSimulating = (state: RunStatus['state']): boolean => state === 'running' || state === 'previewing';

/** What is said of a run that failed. */
export const failureWords = (message: string): string => `The run failed. ${capital(message)}`;

/** For those who listen: a run's start, its quarters and how it ended, no more. */
export function announcement(status: RunStatus, result: StudyResult | null): string {
	switch (status.state) {
		case 'running': {
			const quarter = Math.floor((4 * (status.finished + status.failed)) / status.asked) * 25;
			return quarter === 0 ? `Simulating ${count(status.asked)} drives.` : `${quarter}\u00a0% of the drives simulated.`;
		}
		case 'previewing':
			return '';
		case 'done':
			return `Finished. ${result ? studySentence(result) : ''}`;
		case 'failed':
			return failureWords(status.message);
		case 'idle':
			return status.note;
	}
}
