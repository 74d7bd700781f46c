import { studyResultShape } from '../../../../shared/results/result-shape.ts';
import { count, object, text } from '../../../../shared/results/shape.ts';
import type { StudyResult } from '../../../../shared/study/result.ts';
import type { KeptWork } from './kept-work.ts';

/** A result that was kept: what was asked and what came of it, under a name. */
export interface KeptRecord {
	readonly id: string;
	readonly name: string;
	readonly note: string;
	/** Milliseconds since 1970. */
	readonly keptAt: number;
	readonly work: KeptWork;
	readonly result: StudyResult;
}

/** A record as the browser gives it back; `problem` where it is not what was kept. */
export type StoredRecord = { readonly record: KeptRecord } | { readonly id: string; readonly problem: string };

export const longestName = 120;
export const longestNote = 4000;
/** Signs of a scenario file, as the scenario reader takes it. */
const longestText = 256 * 1024;

export const workShape = object<KeptWork>({
	file: text(300),
	base: text(longestText),
	text: text(longestText),
	units: text(40),
	seed: text(400),
	point: count,
});

const recordShape = object<KeptRecord>({
	id: text(100),
	name: text(longestName),
	note: text(longestNote),
	keptAt: count,
	work: workShape,
	result: studyResultShape,
});

/** Looks through a stored record before anything is made of it: it may be broken, of another version, or not ours at all. */
export function readRecord(stored: unknown): StoredRecord {
	const wrong = recordShape(stored, 'record');
	if (wrong === null) return { record: stored as KeptRecord };
	return { id: idOf(stored), problem: `what is stored at ${wrong} is not what this version keeps there` };
}

function idOf(stored: unknown): string {
	if (typeof stored !== 'object' || stored === null || !('id' in stored)) return '';
	return typeof stored.id === 'string' ? stored.id : '';
}
