/** What one mark of the picture stands for; one without a mark says from which zoom on those after it are drawn. */
export interface KeyEntry {
	readonly mark:
		| 'sector'
		| 'commutation'
		| 'blanking'
		| 'cursor'
		| 'true'
		| 'accepted'
		| 'wrong'
		| 'ghostAccepted'
		| 'ghostCommutation'
		| 'notCrossed'
		| 'crossed'
		| 'ignored'
		| 'votes'
		| 'needed'
		| null;
	readonly words: string;
}

const entries: readonly KeyEntry[] = [
	{ mark: 'sector', words: 'sector' },
	{ mark: 'commutation', words: 'commutation' },
	{ mark: 'blanking', words: 'blanking' },
	{ mark: 'cursor', words: 'cursor' },
	{ mark: null, words: 'Zoomed in:' },
	{ mark: 'true', words: 'true crossing' },
	{ mark: 'accepted', words: 'accepted' },
	{ mark: 'wrong', words: 'accepted, but false' },
	{ mark: null, words: 'Grey, the baseline:' },
	{ mark: 'ghostAccepted', words: 'accepted' },
	{ mark: 'ghostCommutation', words: 'commutation' },
	{ mark: null, words: 'Closer still, readings:' },
	{ mark: 'notCrossed', words: 'not crossed' },
	{ mark: 'crossed', words: 'crossed' },
	{ mark: 'ignored', words: 'not counted' },
	{ mark: 'votes', words: 'votes for it' },
	{ mark: 'needed', words: 'votes needed' },
];

export interface PlacedEntry extends KeyEntry {
	readonly x: number;
	/** Of the words' base line. */
	readonly y: number;
}

/** What a mark takes before its words, px. */
export const markWidth = 18;
const markGap = 5;
const entryGap = 16;
const rowHeight = 17;
/** Generous width of a letter at the picture's size of type, px: a drawing cannot lay out text by itself. */
export const letterWidth = 6.2;

export const entryWidth = ({ mark, words }: KeyEntry): number =>
	(mark === null ? 0 : markWidth + markGap) + letterWidth * words.length;

const baselineFrom = entries.findIndex(({ mark }) => mark === 'ghostAccepted') - 1;
const withoutBaseline = entries.toSpliced(baselineFrom, 3);

/** The key's entries in as many rows as the width makes of them. What is told of a zoom stays with the first mark it is told of. */
export function pictureKey(
	width: number,
	hasBaseline = false,
): { readonly placed: readonly PlacedEntry[]; readonly height: number } {
	const shown = hasBaseline ? entries : withoutBaseline;
	let x = 0;
	let y = 12;
	const placed = shown.map((entry, i): PlacedEntry => {
		const own = entryWidth(entry);
		const next = shown[i + 1];
		const needed = entry.mark === null && next ? own + entryGap + entryWidth(next) : own;
		if (x > 0 && x + needed > width) {
			x = 0;
			y += rowHeight;
		}
		const at = { ...entry, x, y };
		x += own + (entry.mark === null ? markGap : entryGap);
		return at;
	});
	return { placed, height: y + 8 };
}

/** Where an entry's words begin. */
export const wordsAt = ({ mark, x }: PlacedEntry): number => (mark === null ? x : x + markWidth + markGap);
