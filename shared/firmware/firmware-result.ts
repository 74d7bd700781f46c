import type { PerChoice } from '../drive/drive.ts';
import type { Provenance } from '../study/result.ts';
import type { Requirement } from '../study/unit-passes.ts';
import type { VariantChoice } from '../variants/variant-figures.ts';
import type { Tuning } from './fit-tuning.ts';
import type { PopulationMean } from './point-means.ts';

/** What firmware can take out; command line, page and report print from it. Angles in electrical degrees, late is +. */
export interface FirmwareResult {
	readonly format: 'anglespread-firmware';
	readonly formatVersion: 1;
	/** Units are those of all runs together; compensation is the one before. */
	readonly provenance: Provenance;
	readonly requirement: Requirement & { readonly sentence: string };
	/** Of each run. */
	readonly unitsPerRun: number;
	/** Seed of the drives that confirm it: none of them was used to find the tuning. */
	readonly confirmationSeed: string;
	/** Advance that the scenario asks for, degrees. */
	readonly advance: number;
	readonly choices: PerChoice<ChoiceTuning>;
	readonly sentence: string;
}

export interface ChoiceTuning {
	readonly before: Tuning;
	readonly after: Tuning;
	/** Runs of the first seed's drives that it took to find it; 0 where no drive kept lock at every point, or the first was cut short. */
	readonly rounds: number;
	/** On the fresh drives; null where the work was cut short. */
	readonly confirmed: {
		readonly before: TunedFigures;
		readonly after: TunedFigures;
		/** Drives that pass only after, only before, and McNemar's exact p that as many pass before and after. */
		readonly change: { readonly gained: number; readonly lost: number; readonly p: number };
	} | null;
}

export interface TunedFigures extends VariantChoice {
	readonly error: PopulationMean;
}
