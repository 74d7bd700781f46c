import { drivesPerRow } from '../../shared/origins/drive-design.ts';
import type { OriginsResult } from '../../shared/origins/origins-result.ts';
import { type PartCorrelations, partCorrelations } from '../../shared/origins/part-correlations.ts';
import { spreadGroups } from '../../shared/origins/spread-groups.ts';
import { sharesStand, summariseOrigins } from '../../shared/origins/summarise-origins.ts';
import { sha256 } from '../../shared/scenario/digest.ts';
import { confidenceLevel as level } from '../../shared/study/confidence-level.ts';
import { looksOfRuns, looksWords } from '../../shared/study/looks.ts';
import { failUnits, mergeShard, studyFor } from '../../shared/study/merge.ts';
import { collectFigures } from './collect-figures.ts';
import { findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { DoneSoFar, WorkRequest } from './work-request.ts';

export interface OriginsRequest extends WorkRequest<DoneSoFar> {
	/** Index of the operating point. */
	readonly point: number;
	/** Rows of the pick-freeze design. */
	readonly rows: number;
	/** Drives of the ordinary study that rank correlations are taken from; 0 for none. */
	readonly units: number;
}

const methods = {
	shares:
		'pick-freeze design on independent base uniforms; first order after Saltelli (2010), total after Jansen (1999); variances of the six sector kinds added up',
	'number of rows': `ends after ${looksWords} rows where every share is known to within one per cent, either way`,
	'intervals of shares': "Hall's transformation of each share as a ratio of sums over the rows",
	'the spread':
		"a drive's mean angle error in each sector kind, from noise-free crossings interpolated between readings: the wait for readings and votes is not in it",
	'rank correlations': "Spearman's, over the drives of an ordinary study; chance limit divided by their number",
};

/** Drives a request comes to. */
export function originsDrives({ scenario, point, rows, units }: OriginsRequest): number {
	return rows * drivesPerRow(spreadGroups(scenario, point).filter(({ varies }) => varies).length) + units;
}

/** Finds where the spread comes from, on workers of its own. */
export const runOrigins = onOwnWorkers(runOriginsInPool);

/** The same on workers that live on. */
export async function runOriginsInPool(request: OriginsRequest, pool: Pool): Promise<OriginsResult> {
	const { scenario, point, seed, rows, signal, onProgress = () => {} } = request;
	const silenceLimit = silenceLimitOf(scenario);
	const groups = spreadGroups(scenario, point);
	const moving = groups.filter(({ varies }) => varies).map(({ parts, starts }) => ({ parts, starts }));
	const width = drivesPerRow(moving.length);
	const found = await findCompensation(scenario, pool, silenceLimit, signal);
	const collected = await collectFigures({
		pool,
		plan: {
			scenario,
			point,
			compensation: found.compensation,
			design: { kind: 'pickFreeze', seed, point, groups: moving },
			phases: 0,
		},
		drives: rows * width,
		early: {
			looks: looksOfRuns(rows).map((look) => look * width),
			isEnough: (soFar) => sharesStand({ groups, ...soFar }, level),
		},
		signal,
		silenceLimit,
		failure: found.failure,
		shardSize: request.shardSize,
		onProgress: (finished, failed) => onProgress({ finished, failed }),
	});
	const { figures, done, failures } = collected;
	const finished = done.reduce((sum, one) => sum + one, 0);
	const study =
		request.units > 0 && found.failure === undefined && collected.isComplete
			? await studyCorrelations(request, found.compensation, pool, silenceLimit, finished, failures.length)
			: { correlations: null, isComplete: request.units === 0 || found.failure !== undefined };
	return summariseOrigins({
		scenario,
		point,
		groups,
		figures,
		done,
		correlations: study.correlations,
		provenance: await provenanceOf({
			scenario,
			seed,
			found,
			digests: await sha256(new Uint8Array(figures.buffer)),
			units: { asked: done.length, finished, failed: failures.length },
			partial: !(collected.isComplete && study.isComplete),
			failures,
			methods,
		}),
	});
}

/** An ordinary study of the one point, for its columns. */
async function studyCorrelations(
	{ scenario, point, seed, units, signal, onProgress = () => {}, shardSize }: OriginsRequest,
	compensation: OriginsResult['provenance']['compensation'],
	pool: Pool,
	silenceLimit: number,
	finishedBefore: number,
	failedBefore: number,
): Promise<{ readonly correlations: PartCorrelations | null; readonly isComplete: boolean }> {
	const onlyPoint = scenario.points.filter((_, index) => index === point);
	const plan = { scenario: { ...scenario, points: onlyPoint, referencePoint: 0 }, seed, compensation };
	const study = studyFor(plan.scenario, units);
	const isComplete = await pool.run({
		name: 'units',
		input: plan,
		to: units,
		signal,
		silenceLimit,
		shardSize,
		onShard: (shard) => mergeShard(study, shard),
		onFailure: (from, to, message) => failUnits(study, from, to, message),
		onProgress: (done) =>
			onProgress({
				finished: finishedBefore + Math.max(0, done - study.failures.length),
				failed: failedBefore + study.failures.length,
			}),
	});
	return { correlations: partCorrelations(plan, study, 0), isComplete };
}
