import type { PerChoice } from '../drive/drive.ts';
import type { Verdict } from '../statistics/verdict.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';
import type { VariantFigures } from '../variants/variant-figures.ts';
import type { Limit } from './corners.ts';

/** What an envelope found; command line, page and report print from it. Angles in electrical degrees. */
export interface EnvelopeResult {
	readonly format: 'anglespread-envelope';
	readonly formatVersion: 1;
	/** Units are those of all combinations together. */
	readonly provenance: Provenance;
	readonly requirement: Requirement & { readonly sentence: string };
	readonly unitsPerCombination: number;
	/** Combinations of limits that there are, and that a thinned envelope may run before its search. */
	readonly possible: number;
	/** Where not all were run: conditions of which any so many met in all combinations of their limits. */
	readonly thinned: { readonly strength: number } | null;
	/** Everything that was run. */
	readonly combinations: readonly CombinationResult[];
	/** Place of each choice's worst among them; null where no drive was finished. */
	readonly worst: PerChoice<number | null>;
	/** Drives that pass at every combination run, and what they show of the requirement. */
	readonly everywhere: PerChoice<{ readonly passed: number; readonly verdict: Verdict }>;
	readonly sentence: string;
}

export interface CombinationResult extends VariantFigures {
	readonly point: string;
	/** By parameter id. */
	readonly limits: Readonly<Record<string, Limit>>;
	/** Every condition's value by id. */
	readonly conditions: Readonly<Record<string, number>>;
	/** Run by the search around the worst of a thinned envelope. */
	readonly isSearched: boolean;
}
