import type { ChoiceName } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { percent, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { decades, intervalRows } from './interval-rows.ts';
import type { Picture } from './pictures.ts';
import type { ChartTheme } from './theme.ts';

/** Share of drives that fail with a choice in one place, from the share that passes and its one-sided limits. */
export function failingRow(
	place: string,
	choice: ChoiceName,
	{ share, low, high }: { readonly share: number; readonly low: number; readonly high: number },
	/** What else is to be said of the limits. */
	limits = '',
) {
	return {
		place,
		choice,
		failing: 1 - share,
		low: 1 - high,
		high: 1 - low,
		/** None failed: the upper limit stands for it. */
		none: share === 1,
		says: `${capital(choiceWords[choice])}, ${place}: ${percent(1 - share)} fail (${span(percent(1 - high, 'down'), percent(1 - low, 'up'))}${limits})`,
	};
}

type FailingRow = ReturnType<typeof failingRow>;

interface FailingIntervals {
	/** What the figures are called where they are saved. */
	readonly name: string;
	/** Where drives fail: "at the worst combinations of limits". */
	readonly where: string;
	/** In the order in which they are shown, both choices of a place together. */
	readonly rows: readonly FailingRow[];
	/** The baseline's, drawn as grey ticks where they have a place; null for none. */
	readonly ghost: readonly FailingRow[] | null;
	/** Share of drives that may fail. */
	readonly limit: number;
	/** Height of a place's lines, px. */
	readonly rowHeight: number;
}

/** Drives that fail, place by place, against what may fail. Logarithmic, since what is required lies near none. */
export function failingIntervals(
	{ name, where, rows, ghost, limit, rowHeight }: FailingIntervals,
	theme: ChartTheme,
): Picture {
	const places = [...new Set(rows.map(({ place }) => place))];
	const scaled = decades(
		[limit, ...rows.flatMap(({ failing, low, high }) => [failing, low, high])],
		{ least: 0.1, most: 0.1 },
		(decade) => levelWords(Number(`1e${decade}`)),
	);
	const describes = `Share of drives that fail ${where}; at most ${levelWords(limit)} may. ${rows.map(({ says }) => says).join('. ')}.`;
	const spec = intervalRows(
		{
			name,
			rows: rows.map((row) => ({ ...row, low: Math.max(row.low, scaled.low) })),
			ghost: ghost?.filter(({ place, failing }) => places.includes(place) && failing >= scaled.low) ?? null,
			fields: { row: 'place', value: 'failing', low: 'low', high: 'high', open: 'none', openAt: ['high'] },
			order: places,
			height: 64 + rowHeight * places.length,
			scale: scaled.scale,
			axis: { ...scaled.axis, title: 'share of drives that fail' },
			limit: { at: limit, words: `${levelWords(limit)} may fail` },
		},
		theme,
		describes,
	);
	return { spec, describes };
}
