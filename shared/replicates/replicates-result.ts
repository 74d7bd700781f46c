import type { PerChoice } from '../drive/drive.ts';
import type { Draws } from '../sampling/draws.ts';
import type { ReplicateEstimate } from '../statistics/replicate-interval.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';

/**
 * A study on draws that are not independent: its figures' intervals come from whole replicates, and there is no
 * verdict, since an exact limit on a share needs independent drives. Angles in electrical degrees.
 */
export interface ReplicatesResult {
	readonly format: 'anglespread-replicates';
	readonly formatVersion: 1;
	readonly provenance: Provenance & { readonly draws: ReplicatedDraws };
	readonly requirement: Requirement & { readonly sentence: string };
	/** Share of drives that pass every point. */
	readonly passing: ComparedFigure;
	readonly points: readonly ReplicatedPoint[];
	readonly sentence: string;
}

export interface ReplicatedDraws {
	readonly kind: StratifiedKind;
	/** Asked, and those of which every drive was run: figures are of these. */
	readonly replicates: { readonly asked: number; readonly finished: number };
	/** Drives of each. */
	readonly units: number;
}

export type StratifiedKind = Exclude<Draws['kind'], 'independent'>;

export interface ReplicatedPoint {
	readonly name: string;
	readonly conditions: Readonly<Record<string, number>>;
	/** Share of drives that pass this point. */
	readonly passing: ComparedFigure;
	/** Mean over drives of each one's mean angle error. */
	readonly meanError: ComparedFigure;
	/** Mean over drives of the angle that 95 % of a drive's commutations keep within. */
	readonly error95: ComparedFigure;
	/** The angle that 95 % of drives keep within with 95 % of their commutations. */
	readonly worse: PerChoice<ReplicateEstimate>;
}

/** Both choices, and half-bus minus virtual neutral on the same drives. */
export interface ComparedFigure extends PerChoice<ReplicateEstimate> {
	readonly difference: ReplicateEstimate;
}
