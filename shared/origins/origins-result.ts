import type { PerChoice } from '../drive/drive.ts';
import type { Provenance } from '../study/result.ts';
import type { PartCorrelations } from './part-correlations.ts';

/** Fewer rows of a pick-freeze design than this share nothing out. */
export const fewestRows = 20;

/** Where the spread of one operating point comes from: the record that command line and page print from. Angles in electrical degrees. */
export interface OriginsResult {
	readonly format: 'anglespread-origins';
	/** Version 1 had no `squares`. */
	readonly formatVersion: 1 | 2;
	/** Its units are the drives of the pick-freeze design. */
	readonly provenance: Provenance;
	readonly point: string;
	/** The point's nominal conditions by parameter id. */
	readonly conditions: Readonly<Record<string, number>>;
	/** Rows of the design asked for, and drives in each. */
	readonly rows: number;
	readonly drivesPerRow: number;
	readonly choices: PerChoice<ChoiceOrigins>;
	/** From an ordinary study; null where none was asked for or it was cut short before its first drives. */
	readonly correlations: PartCorrelations | null;
	/** The answer, with figures and confidence. */
	readonly sentence: string;
}

export interface ChoiceOrigins {
	/** Rows in which every drive had a mean error in every sector kind. */
	readonly rows: number;
	/** Finished rows left out because one of their drives lost lock or found no crossing in some sector kind. */
	readonly rowsWithout: number;
	/** Standard deviation over drives of a sector kind's mean error: root mean square over the six kinds. */
	readonly spread: number;
	/**
	 * By row of the design, with the spread's square as their mean, to four digits: the squared deviations of its two
	 * independent drives, degrees². NaN where the row is not in the figures. What the limits of a change of the spread
	 * rest on (origins-change.ts).
	 */
	readonly squares?: readonly number[];
	readonly kinds: readonly { readonly mean: number; readonly sd: number }[];
	/** Those that vary, the largest total first. */
	readonly groups: readonly GroupShare[];
	/** Names of the groups that do not vary. */
	readonly still: readonly string[];
	/** 1 − Σ first-order indices: what groups do together and none alone. */
	readonly together: number;
	/** Its limits; null with too few rows for any. */
	readonly togetherInterval: readonly [number, number] | null;
}

/** A share of the variance with the limits of its interval. */
export interface Share {
	readonly value: number;
	readonly low: number;
	readonly high: number;
}

export interface GroupShare {
	readonly id: string;
	readonly name: string;
	/** Share that the group makes alone. */
	readonly first: Share;
	/** Share that would stay if all but the group were fixed. */
	readonly total: Share;
	/** The same for each sector kind by itself, without intervals. */
	readonly kinds: { readonly first: readonly number[]; readonly total: readonly number[] };
}
