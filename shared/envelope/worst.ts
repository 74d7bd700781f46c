import type { ChoiceName } from '../drive/drive.ts';
import type { VariantFigures } from '../variants/variant-figures.ts';

/**
 * Place of the worst for a choice: the smallest passing share; of equal ones the
 * largest error that one drive in twenty exceeds, then the largest computed
 * rate. Null where nothing was finished.
 */
export function worstOf(figures: readonly VariantFigures[], choice: ChoiceName): number | null {
	let worst: number | null = null;
	for (const [place, one] of figures.entries()) {
		if (one.units.finished === 0) continue;
		const before = worst === null ? undefined : figures[worst];
		if (before === undefined || isWorse(one, before, choice)) worst = place;
	}
	return worst;
}

/** Whether one is worse than another for a choice. */
export function isWorse(one: VariantFigures, other: VariantFigures, choice: ChoiceName): boolean {
	const [a, b] = [one.choices[choice], other.choices[choice]];
	if (a.verdict.share !== b.verdict.share) return a.verdict.share < b.verdict.share;
	if (a.unitError.q95 !== b.unitError.q95) return a.unitError.q95 > b.unitError.q95;
	return (a.crossingsPerHour.computed ?? 0) > (b.crossingsPerHour.computed ?? 0);
}
