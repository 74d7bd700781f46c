import type { Deviations } from '../drive/build-drive.ts';
import { choiceNames, type Drive, type PairRecord } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import { medianUnbiasedQuantile } from '../statistics/median-unbiased-quantile.ts';
import { errorMessage } from '../words/error-message.ts';
import { angleBin, angleBins } from './angle-histogram.ts';
import { type Columns, clearColumns, emptyColumns, mostCounted } from './columns.ts';
import type { StudyPlan } from './plan.ts';
import { tallyRun } from './tally-run.ts';
import { unitDrives } from './unit-drives.ts';

/** What a shard of units did; every array is its own buffer, to be handed over without a copy. */
export interface ShardResult {
	/** Units `from` up to `to`. */
	readonly from: number;
	readonly to: number;
	readonly columns: Columns;
	/** Angle errors of all finished units: [point][choice][bin]. */
	readonly histograms: Uint32Array<ArrayBuffer>;
	/** Units whose simulation broke down; their cells are zero. */
	readonly failures: readonly UnitFailure[];
}

export interface UnitFailure {
	readonly unit: number;
	readonly message: string;
}

interface ShardOptions {
	/** Called after every run with the units done so far: a sign of life as much as progress. */
	readonly onProgress?: (unitsDone: number) => void;
	/** A unit's parts, where they are not to be drawn; its moments and noise stay its own. */
	readonly parts?: (unit: number) => Deviations;
	/**
	 * Simulates one drive, a run of `unit` at `point`, where both choices with their chances are not what is wanted.
	 * The cells of a choice that it leaves out stay empty.
	 */
	readonly simulate?: (drive: Drive, noise: NoiseSource, unit: number, point: number) => Partial<PairRecord>;
}

const withChances = (drive: Drive, noise: NoiseSource): PairRecord => simulatePair(drive, noise, { chances: true });

/** Share of a unit's sectors that its `unitError` bounds. */
const unitErrorShare = 0.95;

/**
 * Simulates units `from` up to `to` at every point and start. Unit i depends on
 * the plan and i alone, never on the shard it is in.
 */
export function runShard(
	plan: StudyPlan,
	from: number,
	to: number,
	{ onProgress = () => {}, parts, simulate = withChances }: ShardOptions = {},
): ShardResult {
	const { points, values } = plan.scenario;
	const choices = choiceNames.length;
	const cellsPerUnit = points.length * choices;
	const starts = values['trial.starts'] as number;
	const measured = values['trial.measured'] as number;
	const judgedShare = values['requirement.quantile'] as number;
	const rules = {
		firstSector: (values['trial.warmup'] as number) + (values['trial.settle'] as number),
		falseMargin: values['trial.falseMargin'] as number,
	};
	const columns = emptyColumns((to - from) * cellsPerUnit, mostCounted(plan.scenario));
	const histograms = new Uint32Array(cellsPerUnit * angleBins.count);
	const failures: UnitFailure[] = [];
	// one unit's angle errors, [point][choice][start and sector]: counted once the whole unit is done
	const room = starts * measured;
	const errors = new Float64Array(cellsPerUnit * room);
	const filled = new Uint32Array(cellsPerUnit);

	for (let unit = from; unit < to; unit += 1) {
		const firstCell = (unit - from) * cellsPerUnit;
		filled.fill(0);
		try {
			for (const { point, drive, noise } of unitDrives(plan, unit, parts?.(unit))) {
				const pair = simulate(drive, noise, unit, point);
				for (let c = 0; c < choices; c += 1) {
					const run = pair[choiceNames[c] as 'halfBus'];
					if (run === undefined) continue;
					const place = point * choices + c;
					tallyRun(columns, firstCell + place, run, rules);
					const used = filled[place] as number;
					errors.set(run.errors.subarray(0, run.measured), place * room + used);
					filled[place] = used + run.measured;
				}
				onProgress(unit - from);
			}
			for (let place = 0; place < cellsPerUnit; place += 1) {
				const own = errors.subarray(place * room, place * room + (filled[place] as number));
				const bins = histograms.subarray(place * angleBins.count, (place + 1) * angleBins.count);
				for (const error of own) bins[angleBin(error)] = (bins[angleBin(error)] as number) + 1;
				const isLost = (columns.lost[firstCell + place] as number) > 0;
				for (let i = 0; i < own.length; i += 1) own[i] = Math.abs(own[i] as number);
				own.sort();
				columns.unitError[firstCell + place] = figure(own, unitErrorShare, isLost);
				columns.judgedError[firstCell + place] = figure(own, judgedShare, isLost);
			}
		} catch (error) {
			clearColumns(columns, firstCell, firstCell + cellsPerUnit);
			failures.push({ unit, message: errorMessage(error) });
		}
		onProgress(unit + 1 - from);
	}
	return { from, to, columns, histograms, failures };
}

/**
 * Quantile of a unit's |errors| in rising order. The median-unbiased kind, so
 * that more starts or sectors move no unit across a limit more often one way
 * than the other.
 */
function figure(sorted: Float64Array, share: number, isLost: boolean): number {
	if (isLost) return Number.POSITIVE_INFINITY;
	return sorted.length === 0 ? 0 : medianUnbiasedQuantile(sorted, share);
}
