import { sha256 } from '../scenario/digest.ts';
import { countNames, measureNames } from './columns.ts';
import type { StudyColumns } from './merge.ts';

/**
 * SHA-256 (hex) over the SHA-256 of the states, of every column in the order it
 * is declared, and of the histograms: equal digests mean that every unit has
 * the same figures to the last bit. Column by column, so that nothing large is
 * copied. (All hosts store numbers with the low byte first.)
 */
export async function resultDigest(study: StudyColumns): Promise<string> {
	const parts = [
		study.states,
		...countNames.map((name) => study.columns[name]),
		...measureNames.map((name) => study.columns[name]),
		study.histograms,
	];
	const digests: string[] = [];
	for (const part of parts) digests.push(await sha256(new Uint8Array(part.buffer)));
	return sha256(new TextEncoder().encode(digests.join('\n')));
}
