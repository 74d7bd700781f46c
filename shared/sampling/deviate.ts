import type { Distribution, Tolerance } from '../parameters/parameter.ts';
import { gapped } from './gapped.ts';
import { measured } from './measured.ts';
import { normal } from './normal.ts';
import { triangular } from './triangular.ts';
import { uniform } from './uniform.ts';

type Inverse = (tolerance: Tolerance, halfWidth: number, u: number) => number;

/** Every distribution that a tolerance may name; a new one is one file and one line here. */
const inverses: Readonly<Record<Distribution, Inverse>> = {
	uniform: (_, halfWidth, u) => uniform(halfWidth, u),
	normal: (_, halfWidth, u) => normal(halfWidth, u),
	triangular: (_, halfWidth, u) => triangular(halfWidth, u),
	gapped: (tolerance, halfWidth, u) => gapped(halfWidth, tolerance.gap ?? 0, u),
	measured: (tolerance, _, u) => measured(tolerance.measured ?? [], u),
};

/**
 * The deviation that a uniform in [0, 1) stands for, never falling as u rises.
 *
 * @param halfWidth the tolerance's lot or mismatch; 0 gives 0 (unless measured)
 */
export function deviate(tolerance: Tolerance, halfWidth: number, u: number): number {
	return halfWidth === 0 && tolerance.distribution !== 'measured'
		? 0
		: inverses[tolerance.distribution](tolerance, halfWidth, u);
}
