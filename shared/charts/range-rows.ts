import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import type { RangeResult, RangeValue } from '../range/range-result.ts';
import { valueWords } from '../range/setting.ts';
import { capital } from '../words/capital.ts';
import { degrees, percent, span } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';

/** One choice at one value of the parameter; what is infinite or unknown is null. Degrees and shares. */
export interface RangeRow {
	readonly choice: ChoiceName;
	readonly at: number;
	/** Curves break where a figure is missing: rows of one stretch belong together. */
	readonly stretch: number;
	readonly median: number | null;
	/** What 1 drive in 20 exceeds, and the limits of that. */
	readonly worse: number | null;
	readonly worseLow: number | null;
	readonly worseHigh: number | null;
	/** Passing share and its one-sided limits. */
	readonly share: number | null;
	readonly shareLow: number;
	readonly shareHigh: number;
	readonly decision: string;
	/** More than 1 drive in 20 lost lock. */
	readonly lost: boolean;
	/** Looked at by the search for the slowest speed, not asked for. */
	readonly searched: boolean;
	readonly says: string;
}

/** Both choices along a range of one parameter, rising; values without a finished drive are left out. */
export function rangeRows({ values, axes }: Pick<RangeResult, 'values' | 'axes'>): readonly RangeRow[] {
	const id = axes[0]?.id ?? '';
	const at = (value: RangeValue): number => value.at[id] as number;
	const rising = values.filter(({ units }) => units.finished > 0).sort((one, other) => at(one) - at(other));
	return choiceNames.flatMap((choice) => {
		let stretch = 0;
		return rising.map((value): RangeRow => {
			const { unitError, verdict } = value.choices[choice];
			const { median, q95, q95Interval } = unitError;
			const lost = q95 === Number.POSITIVE_INFINITY;
			if (lost) stretch += 1;
			return {
				choice,
				at: at(value),
				stretch,
				median: finite(median),
				worse: finite(q95),
				worseLow: q95Interval?.every(Number.isFinite) ? q95Interval[0] : null,
				worseHigh: q95Interval?.every(Number.isFinite) ? q95Interval[1] : null,
				share: finite(verdict.share),
				shareLow: verdict.low,
				shareHigh: verdict.high,
				decision: verdict.decision,
				lost,
				searched: value.isSearched,
				says: saysOf(choice, valueWords(id, at(value)), value),
			};
		});
	});
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function saysOf(choice: ChoiceName, where: string, { choices }: RangeValue): string {
	const { unitError, verdict } = choices[choice];
	const error = Number.isFinite(unitError.q95)
		? `1 in 20 beyond ${degrees(unitError.q95)}`
		: Number.isFinite(unitError.median)
			? '1 in 20 loses lock'
			: 'at least half lose lock';
	const limits = span(percent(verdict.low, 'down'), percent(verdict.high, 'up'));
	return `${capital(choiceWords[choice])} at ${where}: ${error}; ${percent(verdict.share)} of drives pass (${limits}), ${verdict.decision}`;
}

/** One line a value with what both choices do there, for the readout. */
export function rangeReadouts(rows: readonly RangeRow[], words: (row: RangeRow) => string, id: string) {
	const first = rows.filter(({ choice }) => choice === 'halfBus');
	return first.map(({ at }) => ({
		at,
		says: `${valueWords(id, at)}: ${rows
			.filter((row) => row.at === at)
			.map((row) => `${choiceWords[row.choice]} ${words(row)}`)
			.join(', ')}`,
	}));
}
