import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { partSlots, partUniforms } from '../sampling/draw-parts.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { rankCorrelation } from '../statistics/rank-correlation.ts';
import { unitValues } from '../study/choice-figures.ts';
import { kindCountNames, kindSumNames } from '../study/columns.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';
import { partSlotWords } from './slot-words.ts';
import { partVaries } from './spread-groups.ts';

/** How a part goes with the mean angle error of each sector kind, over a study's drives. */
export interface PartCorrelation {
	/** Parameter id, or `ringPhase`. */
	readonly id: string;
	/** `lot`: common to the drive's instances; otherwise the instance's index. */
	readonly source: 'lot' | number;
	readonly name: string;
	/** Spearman's rank correlation with sector kinds 0…5; positive where a larger value makes commutation later. */
	readonly kinds: PerChoice<readonly number[]>;
}

export interface PartCorrelations {
	/** Drives with a mean error in every sector kind. */
	readonly drives: PerChoice<number>;
	/** Size that the largest of all these correlations would pass by chance in one study of twenty, were no part to matter. */
	readonly chance: PerChoice<number>;
	readonly parts: readonly PartCorrelation[];
}

/**
 * Rank correlations of every part that varies with the signed sector errors of
 * an ordinary study, at no further run: part values are drawn again from seed
 * and index (their base uniforms, which rank as they do), sector means come from
 * the columns.
 */
export function partCorrelations(
	{ scenario, seed }: { readonly scenario: Scenario; readonly seed: string },
	study: StudyColumns,
	point: number,
): PartCorrelations {
	const finished = [...finishedUnits(study)];
	const uniforms = finished.map((unit) => partUniforms(seed, unit));
	const slots = partSlots.flatMap((_, slot) => (partVaries(scenario, slot) ? [slot] : []));
	const correlated = perChoice((_, choice) => {
		const kinds = kindSumNames.map((sumName, kind) => {
			const sums = unitValues({ study, finished, point, choice }, sumName);
			const counts = unitValues({ study, finished, point, choice }, kindCountNames[kind as 0]);
			return sums.map((sum, i) => sum / (counts[i] as number));
		});
		const whole = finished.flatMap((_, i) => (kinds.every((means) => Number.isFinite(means[i])) ? [i] : []));
		const means = kinds.map((all) => whole.map((i) => all[i] as number));
		return {
			drives: whole.length,
			chance: chanceLimit(whole.length, slots.length * kinds.length),
			rho: slots.map((slot) => {
				const values = whole.map((i) => uniforms[i]?.[slot] as number);
				return means.map((one) => rankCorrelation(values, one));
			}),
		};
	});
	return {
		drives: perChoice((choice) => correlated[choice].drives),
		chance: perChoice((choice) => correlated[choice].chance),
		parts: slots.map((slot, place) => ({
			...(partSlots[slot] as { id: string; source: 'lot' | number }),
			name: partSlotWords(slot),
			kinds: perChoice((choice) => correlated[choice].rho[place] ?? []),
		})),
	};
}

/**
 * Of so many rank correlations without cause, the largest passes this in at most
 * 1 study of 20: each is about normal with variance 1/(n − 1), the level divided
 * by their number (Bonferroni).
 */
function chanceLimit(drives: number, correlations: number): number {
	if (drives < 3 || correlations === 0) return Number.NaN;
	return Math.min(1, -inverseNormal(0.025 / correlations) / Math.sqrt(drives - 1));
}
