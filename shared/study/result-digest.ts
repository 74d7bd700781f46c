import { choiceNames } from '../drive/drive.ts';
import { digestOfAll, sha256 } from '../scenario/digest.ts';
import { columnBytes, countNames, measureNames } from './columns.ts';
import { begunUnits, type StudyColumns } from './merge.ts';

/**
 * SHA-256 (hex) over the SHA-256 of the states, of every column in the order it
 * is declared, and of the histograms: equal digests mean that every unit has
 * the same figures to the last bit. Column by column, so that
 * one at most is copied, and a million units' counts into the same room.
 */
export async function resultDigest(study: StudyColumns): Promise<string> {
	const end = begunUnits(study);
	const cells = end * study.points * choiceNames.length;
	const wide = new Uint32Array(cells);
	const digests = [await sha256(study.states.subarray(0, end))];
	for (const name of [...countNames, ...measureNames]) {
		digests.push(await sha256(columnBytes(study.columns[name].subarray(0, cells), wide)));
	}
	digests.push(await sha256(columnBytes(study.histograms)));
	return digestOfAll(digests);
}
