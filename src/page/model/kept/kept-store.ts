import type { StudyResult } from '../../../../shared/study/result.ts';
import type { KeptRecord } from './kept-record.ts';
import type { KeptWork } from './kept-work.ts';

/** Where results are kept. What comes back is looked through by whoever asks: it may have been changed. */
export interface KeptStore {
	/** Every kept result. */
	all(): Promise<readonly unknown[]>;
	put(record: KeptRecord): Promise<void>;
	remove(id: string): Promise<void>;
	/** What was last on show, to come back to. */
	last(): Promise<unknown>;
	setLast(last: { readonly work: KeptWork; readonly result: StudyResult }): Promise<void>;
}
