import { cautionsOf } from '../../../../shared/study/doubts.ts';
import type { Provenance } from '../../../../shared/study/result.ts';
import { count } from '../../../../shared/words/figures.ts';
import type { Answered } from '../long-question.ts';

interface VariantReservations {
	readonly is: Answered<unknown, unknown>['is'];
	/** What is still being done where figures are shown before the end. */
	readonly goingOn?: string;
	/** What a drive that could not be simulated counts against. */
	readonly against: 'either choice' | 'either verdict';
}

/** What must be known before the figures of drives under changed settings are believed: how far they go, what is missing. */
export function variantReservations(
	{ provenance }: { readonly provenance: Provenance },
	{ is, goingOn, against }: VariantReservations,
): readonly string[] {
	const { failed, asked } = provenance.units;
	return [
		...(is === 'so far' && goingOn ? [`Figures so far: ${goingOn}.`] : []),
		...(is === 'stopped' ? ['The run was stopped: figures of the drives that finished.'] : []),
		...(failed > 0
			? [`${count(failed)} of ${count(asked)} drives could not be simulated; they count against ${against}.`]
			: []),
		...cautionsOf(provenance),
	];
}
