import { verdict } from '../statistics/verdict.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { leastFigure } from '../words/figures.ts';
import { type Filter, isSameFilter } from './cell.ts';
import type { CellFigures, FinalistReason } from './votes-result.ts';

interface Chosen extends Filter {
	readonly reasons: readonly FinalistReason[];
	readonly predicted: number;
}

/**
 * The filters worth a full run at the scenario's noise: its own, the one with which most drives pass (of equals the one
 * with the fewest wrong crossings), and the one that accepts earliest of those whose passing share holds; a filter that
 * is several of them once.
 *
 * @param cells at the scenario's noise
 * @param units judged, and those that could not be simulated
 */
export function finalists(
	cells: readonly CellFigures[],
	own: Filter,
	{ units, notSimulated }: { readonly units: number; readonly notSimulated: number },
	{ share, confidence }: Pick<Requirement, 'share' | 'confidence'>,
): readonly Chosen[] {
	const holding = cells.filter(
		({ passing }) =>
			verdict({ passed: passing, failed: units - passing, notSimulated }, share, confidence).decision === 'holds',
	);
	const reasons: readonly (readonly [FinalistReason, CellFigures | undefined])[] = [
		['as stated', cells.find((cell) => isSameFilter(cell, own))],
		['most drives pass', least(cells, ({ passing }) => -passing, rateOf, latest)],
		['least delay that holds', least(holding, latest, rateOf)],
	];
	const found: (Filter & { reasons: FinalistReason[]; predicted: number })[] = [];
	for (const [reason, cell] of reasons) {
		if (cell === undefined) continue;
		const same = found.find((one) => isSameFilter(one, cell));
		if (same) same.reasons.push(reason);
		else {
			const { votes, window, crossingsPerHour } = cell;
			found.push({ votes, window, reasons: [reason], predicted: crossingsPerHour.all });
		}
	}
	return found;
}

/** Wrong crossings an hour; those that print alike, to two digits or below the least ever printed, are alike. */
const rateOf = ({ crossingsPerHour }: CellFigures): number =>
	Number(Math.max(leastFigure, crossingsPerHour.all).toPrecision(2));

/** Degrees after the crossing at the point where it takes longest. */
export const latest = ({ acceptsAfter }: Pick<CellFigures, 'acceptsAfter'>): number => Math.max(...acceptsAfter);

/** The cell with the least first figure, of equals the least second one, and so on. */
function least(
	cells: readonly CellFigures[],
	...figures: readonly ((cell: CellFigures) => number)[]
): CellFigures | undefined {
	const differing = (one: CellFigures, other: CellFigures): number =>
		figures.map((of) => of(one) - of(other)).find((difference) => difference !== 0) ?? 0;
	return [...cells].sort(differing)[0];
}
