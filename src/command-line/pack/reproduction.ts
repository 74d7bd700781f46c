import { type FigureComparison, figureDifferences } from '../../../shared/results/figure-differences.ts';
import { readResult } from '../../../shared/results/read-result.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import type { Manifest } from './manifest.ts';

/** Figures made again, beside those in the pack. */
export type MadeAgain = FigureComparison & {
	/** Version of the program that made them again. */
	readonly version: string;
	/** Names of the packed operating points. */
	readonly points: readonly string[];
	/** Whether every drive's columns agree, which the figures are made of. */
	readonly sameDrives: boolean;
	/** Whether the result files agree byte by byte. */
	readonly sameBytes: boolean;
};

/** What `reproduce` finds; also its JSON. */
export interface Reproduction {
	readonly format: 'anglespread-reproduction';
	readonly formatVersion: 1;
	readonly pack: Pick<Manifest, 'version' | 'scenario' | 'seed' | 'resultDigest'> & { readonly files: number };
	/** What it was made again with. */
	readonly node: string;
	readonly platform: string;
	readonly packed: MadeAgain;
	/** By this program; null where it is the packed one, or was not asked for; words where it makes no figures. */
	readonly current: MadeAgain | { readonly refused: string } | null;
	readonly isSameProgram: boolean;
}

/** Holds results made again against the packed ones. @param again text of a result file, or why there is none */
export async function madeAgain(packedText: string, again: string): Promise<MadeAgain | { readonly refused: string }> {
	const [first, second] = [await resultOf(packedText), await resultOf(again)];
	if ('refused' in first || 'refused' in second) {
		return { refused: 'refused' in first ? first.refused : (second as { readonly refused: string }).refused };
	}
	return {
		...figureDifferences(first, second),
		version: second.provenance.version,
		points: first.points.map(({ name }) => name),
		sameDrives: first.provenance.resultDigest === second.provenance.resultDigest,
		sameBytes: packedText === again,
	};
}

/** A result file's, or why it has none. */
async function resultOf(text: string): Promise<StudyResult | { readonly refused: string }> {
	const reading = await readResult(text);
	if ('result' in reading) return reading.result;
	const [{ path, value, message } = { path: '', value: '', message: '' }] = reading.problems;
	return { refused: `${path} ${value} ${message}`.replaceAll(/ +/g, ' ').trim() };
}
