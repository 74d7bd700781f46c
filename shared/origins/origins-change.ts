import type { ChoiceName } from '../drive/drive.ts';
import type { Change } from '../statistics/quantile-change.ts';
import { type RowedSpread, spreadChange } from '../statistics/spread-change.ts';
import { fewestRows, type OriginsResult } from './origins-result.ts';

/** How the limits of a change of the spread are come by. */
export const changeMethod =
	"limits of each standard deviation from its rows' squared deviations (Hall's transformation of a mean), put together after Zou and Donner (2008) with the correlation over the rows that both have";

/**
 * Change of a choice's spread, degrees: with equal seeds row i is the same draw of parts on both sides. Without limits
 * (infinite ones) where a side has too few rows, or is of a version that kept none.
 */
export function originsChange(before: OriginsResult, after: OriginsResult, choice: ChoiceName): Change {
	return spreadChange(spreadOf(before, choice), spreadOf(after, choice), {
		level: after.provenance.level,
		paired: before.provenance.seed === after.provenance.seed,
	});
}

function spreadOf({ choices }: OriginsResult, choice: ChoiceName): RowedSpread {
	const { spread, rows, squares = [] } = choices[choice];
	return { sd: spread, squares: rows < fewestRows ? [] : squares };
}
