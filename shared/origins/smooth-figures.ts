import { buildDrive } from '../drive/build-drive.ts';
import type { Drive, PairRecord, PerChoice } from '../drive/drive.ts';
import { type NoiseSource, silence } from '../drive/noise.ts';
import { type PairOptions, simulatePair } from '../drive/simulate-pair.ts';
import { partsFromUniforms } from '../sampling/draw-parts.ts';
import { startFromUniforms } from '../sampling/draw-start.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { UnitFailure } from '../study/run-shard.ts';
import { errorMessage } from '../words/error-message.ts';
import { type DriveDesign, driveUniforms } from './drive-design.ts';
import { addMeanErrors, figuresPerRun } from './mean-errors.ts';

/** Everything a worker needs to find the smooth figures of any drive of a design. */
export interface FigurePlan {
	readonly scenario: Scenario;
	readonly point: number;
	/** Seconds. */
	readonly compensation: PerChoice<number>;
	readonly design: DriveDesign;
	/**
	 * 0: each drive is run once, at the carrier and ripple phase that its own
	 * uniforms say. Otherwise the figures are means over so many phases, the same
	 * for every drive.
	 */
	readonly phases: number;
}

export interface FigureShard {
	readonly from: number;
	/** [drive][choice][sector kind], degrees; NaN where there is none. */
	readonly figures: Float64Array<ArrayBuffer>;
	readonly failures: readonly UnitFailure[];
}

interface Options {
	/** Called after every run with the drives done so far. */
	readonly onProgress?: (done: number) => void;
	/** Other than the kernel only where a test needs a fault. */
	readonly simulate?: (drive: Drive, noise: NoiseSource, options: PairOptions) => PairRecord;
}

/**
 * Mean angle errors of the design's drives `from` up to `to`, from noise-free
 * runs. Ringing is left in the loop, where it can move commutations, but never
 * in the crossings that are measured.
 */
export function smoothFigures(
	{ scenario, point, compensation, design, phases }: FigurePlan,
	from: number,
	to: number,
	{ onProgress = () => {}, simulate = simulatePair }: Options = {},
): FigureShard {
	const operatingPoint = scenario.points[point];
	if (!operatingPoint) throw new RangeError(`point ${point} of ${scenario.points.length}`);
	const firstSector = Number(scenario.values['trial.warmup']) + Number(scenario.values['trial.settle']);
	const figures = new Float64Array((to - from) * figuresPerRun);
	const failures: UnitFailure[] = [];
	const runs = Math.max(1, phases);
	for (let index = from; index < to; index += 1) {
		const at = (index - from) * figuresPerRun;
		const own = figures.subarray(at, at + figuresPerRun);
		try {
			const uniforms = driveUniforms(design, index);
			const parts = partsFromUniforms(scenario, uniforms.parts);
			const start = startFromUniforms(operatingPoint, uniforms.start);
			for (let run = 0; run < runs; run += 1) {
				const moment = phases === 0 ? start : phaseOf(run, phases);
				const drive = buildDrive(
					{ ...scenario.values, ...start.conditions, 'noise.sigma': 0 },
					{ ...parts, pwmPhase: moment.pwmPhase, ripplePhase: moment.ripplePhase },
					compensation,
				);
				addMeanErrors(own, 0, simulate(drive, silence, { interpolated: true }), firstSector);
				onProgress(index - from);
			}
			for (let cell = 0; cell < figuresPerRun; cell += 1) own[cell] = (own[cell] as number) / runs;
		} catch (error) {
			own.fill(Number.NaN);
			failures.push({ unit: index, message: errorMessage(error) });
		}
		onProgress(index + 1 - from);
	}
	return { from, figures, failures };
}

/** Phases spread evenly, every ripple phase once and unrelated to the carrier's. @param phases a power of two */
function phaseOf(run: number, phases: number): { readonly pwmPhase: number; readonly ripplePhase: number } {
	// 7 has no factor in common with a power of two
	return { pwmPhase: (run + 0.5) / phases, ripplePhase: (((7 * run) % phases) + 0.5) / phases };
}
