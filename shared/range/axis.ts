import exp from '@stdlib/math-base-special-exp';
import ln from '@stdlib/math-base-special-ln';
import type { NumberRecord } from '../parameters/parameter.ts';

/** A numeric parameter and the values it is to take. */
export interface Axis {
	readonly record: NumberRecord;
	readonly spacing: 'linear' | 'logarithmic';
	/** Rising or falling, as asked for; one or more. */
	readonly values: readonly number[];
}

/** `count` values from one end to the other, both ends exactly as given. */
export function spaced(from: number, to: number, count: number, spacing: Axis['spacing']): number[] {
	if (count === 1) return [from];
	return Array.from({ length: count }, (_, i) => {
		if (i === 0) return from;
		if (i === count - 1) return to;
		return between(from, to, i / (count - 1), spacing);
	});
}

/** The value a share of the way from one end to the other, rounded to twelve digits so that 2000 is not 2000.0000000000002. */
export function between(from: number, to: number, share: number, spacing: Axis['spacing']): number {
	const value = spacing === 'linear' ? from + share * (to - from) : from * exp(share * ln(to / from));
	return Number(value.toPrecision(12));
}
