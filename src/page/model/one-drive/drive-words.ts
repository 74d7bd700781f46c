import type { SectorEvents } from '../../../../shared/one-drive/drive-window.ts';
import { count, degrees, signedDegrees } from '../../../../shared/words/figures.ts';
import { causeWords, sectorWords } from '../../../../shared/words/names.ts';

/** The six kinds of sector by the phases that conduct. */
const conducting = ['a+ b−', 'a+ c−', 'b+ c−', 'b+ a−', 'c+ a−', 'c+ b−'] as const;

/** A time into the run: "45.213 ms", to the microsecond. */
export const milliseconds = (time: number): string => `${(1e3 * time).toFixed(3)}\u00a0ms`;

/** "sector 31 (a+ c−, phase b rises)" */
export function sectorName(sector: number): string {
	const kind = sector % 6;
	const { phase, rising } = sectorWords[kind] as { phase: string; rising: boolean };
	return `sector ${count(sector)} (${conducting[kind]}, phase ${phase} ${rising ? 'rises' : 'falls'})`;
}

/** What became of a sector's crossing, with its error. */
export function crossingWords(
	{ kind, crossingError, cause, measured, sector }: SectorEvents,
	firstLoop: number,
): string {
	if (sector < firstLoop) return 'warm-up, commutated at the ideal angle';
	const settling = measured ? '' : ' (settling, not counted)';
	if (kind === 'missed') return `missed: no crossing before the timeout${settling}`;
	const off = `${degrees(Math.abs(crossingError))} ${crossingError < 0 ? 'early' : 'late'}`;
	if (kind === null) return `in order, ${off}${settling}`;
	return `${kind === 'early' ? 'early false crossing' : 'late crossing'}, ${off}${cause ? `: ${causeWords[cause]}` : ''}${settling}`;
}

export const commutationWords = (error: number): string =>
	`${signedDegrees(error)} ${error < 0 ? '(early)' : '(late)'}`;
