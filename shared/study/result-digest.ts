import { choiceNames } from '../drive/drive.ts';
import { sha256 } from '../scenario/digest.ts';
import { countNames, measureNames } from './columns.ts';
import { type StudyColumns, unitStates } from './merge.ts';

/**
 * SHA-256 (hex) over the SHA-256 of the states, of every column in the order it
 * is declared, and of the histograms: equal digests mean that every unit has
 * the same figures to the last bit. Column by column, so that nothing large is
 * copied. (All hosts store numbers with the low byte first.)
 */
export async function resultDigest(study: StudyColumns): Promise<string> {
	// units after the last one that was done are all pending, and in a study cut short they may be millions
	let end = study.units;
	while (end > 0 && study.states[end - 1] === unitStates.pending) end -= 1;
	const cells = end * study.points * choiceNames.length;
	const parts = [
		study.states.subarray(0, end),
		...[...countNames, ...measureNames].map((name) => study.columns[name].subarray(0, cells)),
		study.histograms,
	];
	const digests: string[] = [];
	for (const { buffer, byteOffset, byteLength } of parts) {
		digests.push(await sha256(new Uint8Array(buffer, byteOffset, byteLength)));
	}
	return sha256(new TextEncoder().encode(digests.join('\n')));
}
