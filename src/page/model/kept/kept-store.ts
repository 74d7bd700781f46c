import type { StudyResult } from '../../../../shared/study/result.ts';
import type { KeptRecord } from './kept-record.ts';
import type { KeptWork } from './kept-work.ts';

/** Figures with what was asked for them. */
export interface KeptFigures {
	readonly work: KeptWork;
	readonly result: StudyResult;
}

/** Where results are kept. What comes back is looked through by whoever asks: it may have been changed. */
export interface KeptStore {
	/** Every kept result. */
	all(): Promise<readonly unknown[]>;
	put(record: KeptRecord): Promise<void>;
	remove(id: string): Promise<void>;
	/** What was last on show, to come back to. */
	last(): Promise<unknown>;
	setLast(last: KeptFigures): Promise<void>;
	/** The baseline that is pinned. */
	baseline(): Promise<unknown>;
	setBaseline(pinned: KeptFigures | null): Promise<void>;
	/** What is stored of a longer question's answers. */
	answers(question: string): Promise<unknown>;
	/** Stores what `change` makes of it; no other tab comes in between. */
	changeAnswers(question: string, change: (stored: unknown) => unknown): Promise<void>;
}
