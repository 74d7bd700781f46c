import erfc from '@stdlib/math-base-special-erfc';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { sigmasInTolerance, tailAtTolerance } from './normal.ts';

/**
 * Deviation of the `normal` distribution after the next tighter grade was picked
 * out: none with |deviation| < gap. By inverse distribution, the lower side from
 * u < ½, the upper one its mirror image.
 *
 * @param gap half-width of the tighter grade, 0 ≤ gap < halfWidth
 */
export function gapped(halfWidth: number, gap: number, u: number): number {
	if (!(gap >= 0 && gap < halfWidth)) {
		throw new RangeError(`gap ${gap} must lie from 0 to below the tolerance ${halfWidth}`);
	}
	const edge = (sigmasInTolerance * gap) / halfWidth;
	const tailAtGap = 0.5 * erfc(edge * Math.SQRT1_2);
	const fromOutside = u < 0.5 ? 2 * u : 2 * (1 - u);
	const z = -inverseNormal(tailAtTolerance + fromOutside * (tailAtGap - tailAtTolerance));
	const magnitude = (halfWidth / sigmasInTolerance) * Math.min(Math.max(z, edge), sigmasInTolerance);
	return u < 0.5 ? -magnitude : Math.min(magnitude, halfWidth);
}
