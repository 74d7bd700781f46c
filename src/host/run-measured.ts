import { choiceNames } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import { compareIntervals, intervalFigures } from '../../shared/measured/compare-intervals.ts';
import type { MeasuredResult } from '../../shared/measured/measured-result.ts';
import { measuredSentence } from '../../shared/measured/measured-sentence.ts';
import type { MeasuredDrive } from '../../shared/measured/read-log.ts';
import { type IntervalPlan, inOwnRevolutions, revolution } from '../../shared/measured/sector-intervals.ts';
import { sha256 } from '../../shared/scenario/digest.ts';
import { confidenceLevel as level } from '../../shared/study/confidence-level.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import type { UnitFailure } from '../../shared/study/run-shard.ts';
import { findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { DoneSoFar, WorkRequest } from './work-request.ts';

export interface MeasuredRequest extends WorkRequest<DoneSoFar> {
	/** Index of the operating point that the log was taken at. */
	readonly point: number;
	/** Not empty; each with 24 intervals or more. */
	readonly drives: readonly MeasuredDrive[];
	readonly units: number;
}

/** Intervals of a drive beyond these are left out: forty revolutions. */
const mostIntervals = 40 * revolution;

/** Lays measured sector intervals against simulated ones, on workers of its own. */
export const runMeasured = onOwnWorkers(runMeasuredInPool);

async function runMeasuredInPool(request: MeasuredRequest, pool: Pool): Promise<MeasuredResult> {
	const { scenario, point, drives, seed, units, signal, onProgress = () => {} } = request;
	const shortest = Math.min(mostIntervals, ...drives.map(({ intervals }) => intervals.length));
	const intervals = shortest - (shortest % revolution);
	const found = await findCompensation(scenario, pool, silenceLimitOf(scenario), signal);
	const one = pointPlan(scenario, point, { seed, compensation: found.compensation, starts: 1 });
	const input: IntervalPlan = {
		plan: {
			...one,
			scenario: { ...one.scenario, values: { ...one.scenario.values, 'trial.measured': intervals + 1 } },
		},
		intervals,
	};
	const all = new Float64Array(units * choiceNames.length * intervals).fill(Number.NaN);
	const done = new Uint8Array(units);
	const failures: UnitFailure[] = [];
	const fail = (from: number, to: number, message: string): void => {
		for (let unit = from; unit < to; unit += 1) failures.push({ unit, message });
	};
	if (found.failure !== undefined) fail(0, units, found.failure);
	const isComplete =
		found.failure !== undefined ||
		(await pool.run({
			name: 'sectorIntervals',
			input,
			to: units,
			signal,
			silenceLimit: silenceLimitOf(input.plan.scenario),
			onShard(shard) {
				all.set(shard.intervals, shard.from * choiceNames.length * intervals);
				done.fill(1, shard.from, shard.to);
				for (const { unit } of shard.failures) done[unit] = 0;
				failures.push(...shard.failures);
			},
			onFailure: fail,
			onProgress: (now) => onProgress({ finished: Math.max(0, now - failures.length), failed: failures.length }),
		}));

	const measured = drives.map((drive) => inOwnRevolutions(drive.intervals.slice(0, intervals)));
	const finished = done.reduce((sum, one) => sum + one, 0);
	const result: Omit<MeasuredResult, 'sentence'> = {
		format: 'anglespread-measured',
		formatVersion: 1,
		provenance: await provenanceOf({
			scenario,
			found,
			digests: await sha256(new Uint8Array(all.buffer)),
			seed,
			units: { asked: units, finished, failed: failures.length },
			partial: !isComplete,
			failures: failures.sort((one, other) => one.unit - other.unit),
			methods,
		}),
		point: scenario.points[point]?.name ?? '',
		intervals,
		log: {
			drives: drives.map(({ name, logged }) => ({ name, logged })),
			figures: intervalFigures(measured),
			distinct: new Set(drives.flatMap((drive) => Array.from(drive.intervals.subarray(0, intervals)))).size,
		},
		choices: perChoice((_, choice) => {
			const own = Array.from(done.keys()).flatMap((unit) => {
				const at = (unit * choiceNames.length + choice) * intervals;
				return done[unit] === 1 && !Number.isNaN(all[at]) ? [all.slice(at, at + intervals)] : [];
			});
			if (own.length === 0) return null;
			return { ...compareIntervals(measured, own, level), lost: finished - own.length };
		}),
	};
	return { ...result, sentence: measuredSentence(result) };
}

const methods = {
	'sector intervals':
		'times between commutations, as degrees of their own electrical revolution, measured and predicted alike: free of the unit of time and of slow changes of speed',
	'distribution of intervals':
		'largest difference of cumulative shares; p by dealing out whole drives anew (1999 rearrangements), since the sectors of one drive are not independent',
	'spreads of drives': 'two-sample Kolmogorov–Smirnov test, exact, one figure a drive',
	'a difference': 'shown where either p is below 2.5 %',
};
