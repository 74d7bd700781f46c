import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { checkWhole } from './interval.ts';

/**
 * Exact two-sided sign test: the probability, were either sign as likely, of a
 * split at least as uneven: min(1, 2 P(X ≤ min(plus, minus))), X ~ Binomial(n, ½).
 * Ties are left out beforehand; no pairs at all give 1.
 *
 * Source: W. J. Dixon and A. M. Mood, JASA 41 (1946) 557–566.
 */
export function signTest(plus: number, minus: number): number {
	checkWhole(plus, 'plus');
	checkWhole(minus, 'minus');
	return plus === minus ? 1 : Math.min(1, 2 * binomialCdf(Math.min(plus, minus), plus + minus, 0.5));
}
