import type { Basis, NumberRecord, Tolerance } from '../parameters/parameter.ts';
import { measuredValues } from './measured.ts';
import { onScale } from './quantity.ts';

/** A part's tolerance as it is read: half-widths, how it is spread, where it comes from. */
export interface ToleranceWords {
	readonly lot: string;
	readonly mismatch: string;
	readonly spread: string;
	readonly basis: Basis;
}

/** Whether a part varies at all. */
export const isVarying = ({ lot, mismatch, distribution, measured }: Tolerance): boolean =>
	(distribution === 'measured' ? (measured?.length ?? 0) : lot + mismatch) > 0;

/** Of a part that varies; "–" where it has no such deviation. */
export function toleranceWords(record: NumberRecord, tolerance: Tolerance): ToleranceWords {
	const { scale, lot, mismatch, distribution, gap, measured, basis } = tolerance;
	const half = (width: number): string => onScale(scale, width, record.unit);
	const isMeasured = distribution === 'measured';
	return {
		lot: lot === 0 || isMeasured ? '–' : half(lot),
		mismatch: mismatch === 0 || isMeasured ? '–' : half(mismatch),
		spread: isMeasured
			? `measured, ${measuredValues(measured?.length ?? 0)}`
			: distribution === 'gapped' && gap !== undefined
				? `gapped, ±${half(gap)} picked out`
				: distribution,
		basis,
	};
}
