import type { Scenario } from '../scenario/scenario.ts';
import { Moments } from '../statistics/moments.ts';
import { unitValues } from '../study/choice-figures.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';

/** The population's mean angle error at one operating point and how it spreads, degrees. */
export interface PointMean {
	readonly name: string;
	/** Share of the hours, all points adding up to 1. */
	readonly weight: number;
	/** Drives that kept lock in all starts; the others have no mean to speak of and are left out. */
	readonly drives: number;
	readonly lost: number;
	/** Mean over drives of each one's mean error, and its standard error; NaN without drives. */
	readonly mean: number;
	readonly standardError: number;
	/** Standard deviation of the drives' means: what each drive keeps, whatever all of them share. */
	readonly betweenDrives: number;
	/** Standard deviation of all commutations about the mean. */
	readonly ofCommutations: number;
}

export interface PopulationMean {
	readonly points: readonly PointMean[];
	/** Mean over the points by their share of the hours, and its standard error over drives; NaN without drives that kept lock at all points. */
	readonly mean: number;
	readonly standardError: number;
}

/** Mean errors of one choice from a run's columns. */
export function populationMean(scenario: Scenario, study: StudyColumns, choice: number): PopulationMean {
	const finished = finishedUnits(study);
	const hours = scenario.points.map(({ values }) => values['operation.share'] ?? 1);
	const all = hours.reduce((sum, share) => sum + share, 0);
	/** Each unit's mean over the points; NaN where it lost lock at one. */
	const overall = new Float64Array(finished.length);
	const points = scenario.points.map((operatingPoint, point): PointMean => {
		const place = { study, finished, point, choice };
		const sums = unitValues(place, 'errorSum');
		const squares = unitValues(place, 'errorSquares');
		const sectors = unitValues(place, 'sectors');
		const lost = unitValues(place, 'lost');
		const weight = (hours[point] as number) / all;
		const means = new Moments();
		let commutations = 0;
		let total = 0;
		let totalSquares = 0;
		for (let i = 0; i < finished.length; i += 1) {
			if ((lost[i] as number) > 0) {
				if (weight > 0) overall[i] = Number.NaN;
				continue;
			}
			const mean = (sums[i] as number) / (sectors[i] as number);
			means.add(mean);
			if (weight > 0) overall[i] = (overall[i] as number) + weight * mean;
			commutations += sectors[i] as number;
			total += sums[i] as number;
			totalSquares += squares[i] as number;
		}
		const { count, mean } = means;
		const betweenDrives = means.sd;
		return {
			name: operatingPoint.name,
			weight,
			drives: count,
			lost: finished.length - count,
			mean,
			standardError: betweenDrives / Math.sqrt(count),
			betweenDrives,
			ofCommutations: Math.sqrt(Math.max(0, (totalSquares - (total * total) / commutations) / (commutations - 1))),
		};
	});
	const kept = new Moments();
	for (const mean of overall) if (!Number.isNaN(mean)) kept.add(mean);
	return {
		points,
		mean: kept.mean,
		standardError: kept.count < 2 ? Number.NaN : Math.sqrt(kept.squares / (kept.count - 1) / kept.count),
	};
}
