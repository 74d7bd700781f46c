import type { ChoiceName } from '../../../../shared/drive/drive.ts';
import type { DriveWindow } from '../../../../shared/one-drive/drive-window.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { commutationWords, crossingWords, milliseconds, sectorName } from './drive-words.ts';

/** What one can step through. */
export const eventKindsSeen = {
	false: 'false and missed crossings',
	accepted: 'accepted crossings',
	true: 'true crossings',
	commutation: 'commutations',
} as const;
export type SeenKind = keyof typeof eventKindsSeen;

export interface DriveEvent {
	/** s. */
	readonly time: number;
	readonly words: string;
}

/** One choice's events of a kind in the order of time; sectors that were only forced in warm-up are none. */
export function driveEvents(window: DriveWindow, choice: ChoiceName, kind: SeenKind): readonly DriveEvent[] {
	const firstLoop = (window.runs[choice].sectors[0]?.sector ?? 0) + 1;
	return window.runs[choice].sectors
		.filter(({ sector }) => sector >= firstLoop)
		.flatMap((events): DriveEvent[] => {
			const { sector, reached, acceptedAt, commutation, trueCrossing, angleError } = events;
			const crossing = crossingWords(events, firstLoop);
			const at = (time: number, what: string): DriveEvent[] => [{ time, words: placed(time, choice, sector, what) }];
			if (kind === 'accepted') return Number.isNaN(acceptedAt) ? [] : at(acceptedAt, `accepted, ${crossing}`);
			if (kind === 'true') return at(trueCrossing, `the back-EMF crosses zero; the crossing taken is ${crossing}`);
			if (kind === 'commutation') return at(commutation, `commutation ${commutationWords(angleError)}`);
			if (events.kind === null) return [];
			return at(Number.isNaN(reached) ? commutation : acceptedAt, crossing);
		})
		.sort((one, other) => one.time - other.time);
}

/**
 * Where there is something to read from the start: the crossing accepted in the measured sector whose commutation lies
 * farthest off with one choice (the commutation itself where none was accepted), else in the first sector of the closed
 * loop. Null where there is none.
 */
export function restingEvent({ runs }: DriveWindow, choice: ChoiceName): DriveEvent | null {
	const { sectors } = runs[choice];
	const [worst] = sectors
		.filter(({ measured }) => measured)
		.sort((one, other) => Math.abs(other.angleError) - Math.abs(one.angleError));
	const events = worst ?? sectors[1];
	if (!events) return null;
	const { acceptedAt, commutation, sector, angleError } = events;
	const firstLoop = (sectors[0]?.sector ?? 0) + 1;
	const time = Number.isNaN(acceptedAt) ? commutation : acceptedAt;
	const what = `commutation ${commutationWords(angleError)}; its crossing ${crossingWords(events, firstLoop)}`;
	return { time, words: `${worst ? 'Largest error' : 'First sector'}: ${placed(time, choice, sector, what)}` };
}

/** What happened, with when and where. */
const placed = (time: number, choice: ChoiceName, sector: number, what: string): string =>
	`${milliseconds(time)}, ${choiceWords[choice]}, ${sectorName(sector)}: ${what}`;

/** The nearest event after (or before) a time; null where there is none. */
export function nextEvent(events: readonly DriveEvent[], time: number, direction: 1 | -1): DriveEvent | null {
	// a step from an event must not find the same one again
	const least = 1e-9;
	if (direction > 0) return events.find((event) => event.time > time + least) ?? null;
	return events.findLast((event) => event.time < time - least) ?? null;
}
