import { verdict } from '../statistics/verdict.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { leastFigure } from '../words/figures.ts';
import { type Filter, isSameFilter } from './cell.ts';
import type { CellFigures, FinalistReason } from './votes-result.ts';

/** Share of the hourly limit below which wrong crossings decide nothing between filters. */
const ofNoAccount = 1e-3;

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
	{ share, confidence, crossingsPerHour }: Pick<Requirement, 'share' | 'confidence' | 'crossingsPerHour'>,
): readonly Chosen[] {
	const holding = cells.filter(
		({ passing }) =>
			verdict({ passed: passing, failed: units - passing, notSimulated }, share, confidence).decision === 'holds',
	);
	const reasons: readonly (readonly [FinalistReason, CellFigures | undefined])[] = [
		['as stated', cells.find((cell) => isSameFilter(cell, own))],
		['most drives pass', least(cells, ({ passing }) => -passing, rateOf(crossingsPerHour), latest)],
		['least delay that holds', least(holding, latest, rateOf(crossingsPerHour))],
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

/** Wrong crossings an hour for comparisons: those that print alike, to two digits, and those of no account beside the limit are alike. */
export const rateOf =
	(limit: number) =>
	({ crossingsPerHour }: Pick<CellFigures, 'crossingsPerHour'>): number =>
		Number(Math.max(leastFigure, ofNoAccount * limit, crossingsPerHour.all).toPrecision(2));

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
