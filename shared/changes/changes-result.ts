import type { PerChoice } from '../drive/drive.ts';
import type { Decision } from '../statistics/verdict.ts';
import type { PointChange } from '../study/point-change.ts';
import type { Provenance } from '../study/result.ts';
import type { InputChange } from './changed-inputs.ts';

/** What changed from one result of a study to another; command line and JSON. Angles in electrical degrees. */
export interface ChangesResult {
	readonly format: 'anglespread-changes';
	readonly formatVersion: 1;
	readonly before: Side;
	readonly after: Side;
	/** Null where a file does not hold its scenario; `sameScenario` then is all that is known. */
	readonly inputs: readonly InputChange[] | null;
	readonly sameScenario: boolean;
	/** What must hold is stated differently: verdicts are then of different things. */
	readonly requirementChanged: boolean;
	readonly pairing: Pairing;
	readonly verdicts: PerChoice<VerdictChange>;
	/** Points that both have, by name, in the order of the later one. */
	readonly points: readonly { readonly name: string; readonly change: PointChange | null }[];
	readonly onlyBefore: readonly string[];
	readonly onlyAfter: readonly string[];
	/** Whether any verdict got worse. */
	readonly worse: boolean;
	readonly sentence: string;
}

export interface Side
	extends Pick<
		Provenance,
		'version' | 'seed' | 'scenario' | 'scenarioDigest' | 'resultDigest' | 'units' | 'partial' | 'compensation' | 'level'
	> {
	/** Whether its file holds the drives behind the figures; it does not where they were too many for it, and in files of version 1. */
	readonly holdsDrives: boolean;
	/** Drives that a file holds at most, at its number of operating points. */
	readonly mostDrives: number;
}

/**
 * `drives`: unit i is the same draw on both sides, and limits are those of pairs.
 * `seed`: the same, but different versions made them, which may draw differently;
 * limits are those of pairs, whose correlation is measured and not assumed.
 * `none`: other seeds, so other drives. `figures`: a file does not hold its drives.
 */
export type Pairing = 'drives' | 'seed' | 'none' | 'figures';

export interface VerdictChange {
	readonly before: Decision;
	readonly after: Decision;
	readonly step: 'better' | 'same' | 'worse';
	readonly sentences: { readonly before: string; readonly after: string };
}
