import ln from '@stdlib/math-base-special-ln';
import pow from '@stdlib/math-base-special-pow';
import { checkLevel, checkWhole } from './interval.ts';

/**
 * Units that must all pass, none failing, to show a share of at least R with
 * confidence C: the smallest n with Rⁿ ≤ 1 − C, n = ⌈ln(1 − C)/ln R⌉ (the
 * success run of reliability testing).
 */
export function successRunUnits(share: number, confidence: number): number {
	checkLevel(share, 'share');
	checkLevel(confidence);
	const units = Math.max(1, Math.round(ln(1 - confidence) / ln(share)));
	// rounding aside, the neighbour above may be the one
	return pow(share, units) <= (1 - confidence) * (1 + 1e-12) ? units : units + 1;
}

/** Share that n units passing without a failure show with confidence C: (1 − C)^(1/n); 0 for no units. */
export function successRunShare(units: number, confidence: number): number {
	checkWhole(units, 'units');
	checkLevel(confidence);
	return units === 0 ? 0 : pow(1 - confidence, 1 / units);
}
