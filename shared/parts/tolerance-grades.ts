/**
 * Tolerance grades that parts are sold in, as fractions: those with a letter in
 * IEC 60062:2016 (L P W B C D F G J K M).
 */
export const toleranceGrades: readonly number[] = [1e-4, 2e-4, 5e-4, 1e-3, 2.5e-3, 5e-3, 0.01, 0.02, 0.05, 0.1, 0.2];

/** The grade that a maker picks out of parts sold at `tolerance`; undefined where none is tighter. */
export function nextTighterGrade(tolerance: number): number | undefined {
	return toleranceGrades.findLast((grade) => grade < tolerance);
}
