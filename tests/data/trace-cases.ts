import type { Deviations } from '../../shared/drive/build-drive.ts';
import type { PerChoice } from '../../shared/drive/drive.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import traces from './reference-traces.json' with { type: 'json' };

/** What an independent fixed-step integration found of one board with one sensing choice. */
export interface ExpectedRun {
	readonly errors: readonly number[];
	readonly crossings: readonly (number | null)[];
	readonly torques: readonly number[];
	readonly duties: readonly number[];
	readonly meanTorque: number;
	readonly lost: boolean;
	/** Time s, sense node V, threshold V, i_a, i_b, i_c A. */
	readonly readings: readonly (readonly number[])[];
}

/** The reference boards, as reference-traces.json describes them. */
export const traceCases = traces.cases as unknown as readonly {
	readonly case: number;
	readonly parameters: Values;
	readonly deviations: Deviations;
	readonly expected: PerChoice<ExpectedRun>;
}[];
