import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { checkWhole } from './interval.ts';
import { signTest } from './sign-test.ts';

/**
 * McNemar's test that two choices pass the same share of the same units, from
 * the units in which they differ. Two-sided p: `exact` never rejects too often,
 * `midP` counts the observed split half and is nearer its level.
 *
 * Sources: Q. McNemar, Psychometrika 12 (1947) 153–157; mid-p: M. W. Fagerland,
 * S. Lydersen and P. Laake, BMC Medical Research Methodology 13 (2013) 91.
 *
 * @param onlyFirst units that pass with the first choice alone
 * @param onlySecond units that pass with the second alone
 */
export function mcnemar(onlyFirst: number, onlySecond: number): { readonly exact: number; readonly midP: number } {
	checkWhole(onlyFirst, 'only first');
	checkWhole(onlySecond, 'only second');
	const exact = signTest(onlyFirst, onlySecond);
	if (onlyFirst === onlySecond) {
		// both tails hold the observed split: 2 P(X ≤ x) − P(X = x) is 1 exactly
		return { exact, midP: 1 };
	}
	const fewer = Math.min(onlyFirst, onlySecond);
	const units = onlyFirst + onlySecond;
	const atMost = (x: number): number => (x < 0 ? 0 : binomialCdf(x, units, 0.5));
	return { exact, midP: Math.min(1, atMost(fewer) + atMost(fewer - 1)) };
}
