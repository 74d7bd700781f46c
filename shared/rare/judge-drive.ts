import { type ChoiceName, choiceNames, type Drive, type PairRecord, type PerChoice } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { addMeanErrors, figuresPerRun, sectorKinds } from '../origins/mean-errors.ts';
import type { StudyPlan } from '../study/plan.ts';
import { runShard } from '../study/run-shard.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { crossingsIn, type Shortcoming, unitJudge } from '../study/unit-passes.ts';
import type { LimitValue } from './failure-search.ts';
import type { PartSpace } from './part-space.ts';

/** What one choice makes of a drive with given parts, over all operating points and starts. */
export interface Judged extends LimitValue {
	/** The first operating point that is not passed, and why; null where all are. */
	readonly shortcoming: { readonly point: number; readonly reason: Shortcoming } | null;
	/** Early, late and missed crossings in an operating hour, computed; points weighted by their share of the hours. */
	readonly perHour: number;
	/** Angle within which the required share of commutations keeps, at the worst point; infinite where lock was lost. */
	readonly angle: number;
}

/** Smooth figures of each point: six mean sector errors, the torque that is missing, the rate in standard deviations. */
export const figuresPerPoint = sectorKinds + 2;

/**
 * Judges the drive that a point of the part space stands for.
 *
 * @param moments index of the unit whose moments and noise it meets
 * @throws Error where it could not be simulated
 */
export function judgeDrive(plan: StudyPlan, space: PartSpace, point: Float64Array, moments: number): PerChoice<Judged> {
	const { scenario } = plan;
	const { points, values } = scenario;
	const starts = values['trial.starts'] as number;
	const firstSector = Number(values['trial.warmup']) + Number(values['trial.settle']);
	const sums = new Float64Array(points.length * figuresPerRun);
	let run = 0;
	const simulate = (drive: Drive, noise: NoiseSource): PairRecord => {
		const pair = simulatePair(drive, noise, { chances: true, interpolated: true });
		addMeanErrors(sums, Math.floor(run / starts) * figuresPerRun, pair, firstSector);
		run += 1;
		return pair;
	};
	const parts = space.deviations(point);
	const { columns, failures } = runShard(plan, moments, moments + 1, { parts: () => parts, simulate });
	if (failures[0]) throw new Error(failures[0].message);

	const judge = unitJudge(scenario);
	const hours = points.reduce((sum, { values: at }) => sum + (at['operation.share'] as number), 0);
	const judged = choiceNames.map((name, c): [ChoiceName, Judged] => {
		const figures = new Float64Array(points.length * figuresPerPoint);
		let shortcoming: Judged['shortcoming'] = null;
		let perHour = 0;
		let angle = 0;
		for (const [p, at] of points.entries()) {
			const cell = p * choiceNames.length + c;
			const reason = judge.shortcoming(columns, 0, p, c);
			if (reason !== null) shortcoming ??= { point: p, reason };
			const rate = crossingsIn(columns, cell) / (columns.sectors[cell] as number);
			perHour += ((at.values['operation.share'] as number) / hours) * rate * sectorsPerHour(scenario, at);
			angle = Math.max(angle, columns.judgedError[cell] as number);
			const from = p * figuresPerPoint;
			for (let kind = 0; kind < sectorKinds; kind++) {
				figures[from + kind] = (sums[p * figuresPerRun + c * sectorKinds + kind] as number) / starts;
			}
			const torque = (columns.torqueSum[cell] as number) / (columns.runs[cell] as number);
			figures[from + sectorKinds] = torque / (at.values['operation.torque'] as number);
			// Φ⁻¹: about linear in the voltages that make the rate; NaN where it is 0 or 1
			const depth = inverseNormal(rate);
			figures[from + sectorKinds + 1] = Number.isFinite(depth) ? depth : Number.NaN;
		}
		return [name, { fails: shortcoming !== null, figures, shortcoming, perHour, angle }];
	});
	return Object.fromEntries(judged) as PerChoice<Judged>;
}
