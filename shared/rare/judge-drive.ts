import type { Deviations } from '../drive/build-drive.ts';
import { type ChoiceName, choiceNames, type Drive, type PairRecord, type PerChoice } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { simulateChoice, simulatePair } from '../drive/simulate-pair.ts';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { addMeanErrors, figuresPerRun, sectorKinds } from '../origins/mean-errors.ts';
import type { StudyPlan } from '../study/plan.ts';
import { pointPlan } from '../study/point-plan.ts';
import { runShard } from '../study/run-shard.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { crossingsIn, type Shortcoming, unitJudge } from '../study/unit-passes.ts';
import type { LimitValue } from './failure-search.ts';
import type { PartSpace } from './part-space.ts';

/** What one choice makes of a drive with given parts, over all operating points and starts. */
export interface Judged extends LimitValue {
	/** The first operating point that is not passed, and why; null where all are. */
	readonly shortcoming: { readonly point: number; readonly reason: Shortcoming } | null;
	/** Early, late and missed crossings in an operating hour, computed; points weighted by their share of the hours; NaN where lock was lost before a sector was measured. */
	readonly perHour: number;
	/** Angle within which the required share of commutations keeps, at the worst point; infinite where lock was lost. */
	readonly angle: number;
}

/** Smooth figures of each point: six mean sector errors, the torque that is missing, the rate in standard deviations. */
export const figuresPerPoint = sectorKinds + 2;

/** What is wanted of a drive. */
export interface Judging {
	/** The one choice that is simulated; both if not given. */
	readonly choice?: ChoiceName | undefined;
	/** Whether its smooth figures are. */
	readonly figures?: boolean;
	/** The only operating point that is run, where that is enough; all in order if not given. */
	readonly only?: number | undefined;
	/** Whether the first operating point that is not passed ends it: angle and rate are of no use then. */
	readonly untilFailed?: boolean;
}

/**
 * Judges the drive that a point of the part space stands for.
 *
 * @param moments index of the unit whose moments and noise it meets
 * @throws Error where it could not be simulated
 */
export function judgeDrive(
	plan: StudyPlan,
	space: PartSpace,
	point: Float64Array,
	moments: number,
	{ choice, figures: withFigures = false, only, untilFailed = false }: Judging = {},
): Partial<PerChoice<Judged>> {
	const { scenario } = plan;
	const { points } = scenario;
	const parts = space.deviations(point);
	const hours = points.reduce((sum, { values: at }) => sum + (at['operation.share'] as number), 0);
	const judged = (choice ? [choice] : choiceNames).map((name) => ({
		name,
		shortcoming: null as Judged['shortcoming'],
		perHour: 0,
		angle: 0,
		figures: new Float64Array(withFigures ? points.length * figuresPerPoint : 0).fill(Number.NaN),
	}));
	for (const [p, at] of points.entries()) {
		if (only !== undefined && p !== only) continue;
		const { columns, sums, shortcoming } = runAtPoint(pointPlan(scenario, p, plan), parts, moments, {
			choice,
			interpolated: withFigures,
		});
		for (const own of judged) {
			const c = choiceNames.indexOf(own.name);
			const reason = shortcoming(c);
			if (reason !== null) own.shortcoming ??= { point: p, reason };
			const rate = crossingsIn(columns, c) / (columns.sectors[c] as number);
			own.perHour += ((at.values['operation.share'] as number) / hours) * rate * sectorsPerHour(scenario, at);
			own.angle = Math.max(own.angle, columns.judgedError[c] as number);
			if (!withFigures) continue;
			const from = p * figuresPerPoint;
			const starts = columns.runs[c] as number;
			for (let kind = 0; kind < sectorKinds; kind++) {
				own.figures[from + kind] = (sums[c * sectorKinds + kind] as number) / starts;
			}
			const torque = (columns.torqueSum[c] as number) / starts;
			own.figures[from + sectorKinds] = torque / (at.values['operation.torque'] as number);
			// Φ⁻¹: about linear in the voltages that make the rate; NaN where it is 0 or 1
			const depth = inverseNormal(rate);
			own.figures[from + sectorKinds + 1] = Number.isFinite(depth) ? depth : Number.NaN;
		}
		if (untilFailed && judged.every(({ shortcoming: found }) => found !== null)) break;
	}
	return Object.fromEntries(judged.map(({ name, ...own }) => [name, { ...own, fails: own.shortcoming !== null }]));
}

/** All starts of a drive at the one operating point of a plan; cells are the choices. */
function runAtPoint(
	plan: StudyPlan,
	parts: Deviations,
	moments: number,
	{ choice, interpolated }: { readonly choice: ChoiceName | undefined; readonly interpolated: boolean },
) {
	const { values } = plan.scenario;
	const firstSector = Number(values['trial.warmup']) + Number(values['trial.settle']);
	const options = { chances: true, interpolated };
	const sums = new Float64Array(figuresPerRun);
	const simulate = (drive: Drive, noise: NoiseSource): Partial<PairRecord> => {
		const runs = choice
			? { [choice]: simulateChoice(drive, noise, choice, options) }
			: simulatePair(drive, noise, options);
		if (interpolated) addMeanErrors(sums, 0, runs, firstSector);
		return runs;
	};
	const { columns, failures } = runShard(plan, moments, moments + 1, { parts: () => parts, simulate });
	if (failures[0]) throw new Error(failures[0].message);
	const judge = unitJudge(plan.scenario);
	return { columns, sums, shortcoming: (c: number): Shortcoming | null => judge.shortcoming(columns, 0, 0, c) };
}
