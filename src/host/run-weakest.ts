import ln from '@stdlib/math-base-special-ln';
import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { drawFromMixture, type FailureMixture, failureMixture } from '../../shared/rare/failure-mixture.ts';
import { type FailurePoint, type LimitValue, searchFailures } from '../../shared/rare/failure-search.ts';
import { figuresPerPoint } from '../../shared/rare/judge-drive.ts';
import { notSimulated, type Wanted } from '../../shared/rare/judge-drives.ts';
import { partSpace } from '../../shared/rare/part-space.ts';
import { essential } from '../../shared/rare/soldered-parts.ts';
import { summariseDraws } from '../../shared/rare/summarise-draws.ts';
import { weakestDrive } from '../../shared/rare/weakest-drive.ts';
import type { WeakestChoice, WeakestDrive, WeakestResult } from '../../shared/rare/weakest-result.ts';
import { widenPoints } from '../../shared/rare/widen-points.ts';
import { sha256 } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { confidenceLevel as level } from '../../shared/study/confidence-level.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { sectorsPerHour } from '../../shared/study/sectors-per-hour.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { findCompensation } from './find-compensation.ts';
import { type DriveJudge, driveJudge } from './judge-in-pool.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { DoneSoFar, WorkRequest } from './work-request.ts';

export interface WeakestRequest extends WorkRequest<DoneSoFar> {
	/** Drives drawn for the shares. */
	readonly units: number;
}

const methods = {
	'the likeliest failing drive':
		'from the middle of all tolerances along the slopes of every smooth figure until the requirement fails, then to the nearest point of the tangent plane and again (Hasofer and Lind, Rackwitz and Fiessler), in coordinates z = Φ⁻¹(u) of independent parts',
	'share and rate':
		'importance sampling from ordinary draws and normal densities around the failing points, those of pilot draws included; each draw weighted by the ratio of the densities',
	intervals: `Hall's transformation of the weighted mean, none where fewer than 100 draws carry it; the verdict then rests on an empirical Bernstein bound, true for any weights up to the largest possible`,
	chances: 'computed for every sector from Gaussian noise, independent from reading to reading',
};

/** Failing points that are followed, and how often each is bettered. */
const searched = { most: 6, rounds: 2 };
/** Sets of starts and noise that drives are searched and confirmed with: of units far beyond those that are drawn. */
const searchMoments = Array.from({ length: 20 }, (_, i) => 2 ** 31 + i);
/** In how many of them the drive that is told of is to fail. */
const confirmationsAsked = 15;
/** How the parts' deviations grow, in steps, until it does. */
const growth = { step: 0.03, most: 0.6, atOnce: 2 };
/** How the draws around failing points are dealt out: for the failing share, and for the rate. */
const drawParts = { failing: 3, rate: 1 };
/**
 * Draws that look for what the searches overlooked, numbered far beyond those that
 * count. Where a choice fails nearer than `beyond` standard deviations (1 drive in
 * 200 or more) the ordinary draws see that by themselves, and more centres would
 * only thin the draws out.
 */
const pilot = { rounds: 3, draws: 300, first: 2 ** 30, beyond: 2.5 };
/** Spacing and end of the scan for where density times rate is largest, standard deviations. */
const rateScan = { step: 0.5, farthest: 8.5 };

/** Drives that both searches and their confirmations judge at most, roughly: for a sign of progress. */
export function mostSearched(scenario: Scenario): number {
	const dimension = partSpace(scenario).slots.length;
	return (
		2 * (2 * dimension * (1 + searched.most * searched.rounds) + 1000) +
		2 * searchMoments.length * 32 +
		pilot.rounds * (pilot.draws + 400)
	);
}

/** Finds each choice's likeliest failing drive and how often drives fail, on workers of its own. */
export const runWeakest = onOwnWorkers(runWeakestInPool);

/** The same on workers that live on. */
export async function runWeakestInPool(request: WeakestRequest, pool: Pool): Promise<WeakestResult> {
	const { scenario, seed, units, signal, onProgress, shardSize } = request;
	const silenceLimit = silenceLimitOf(scenario);
	const found = await findCompensation(scenario, pool, silenceLimit, signal);
	const plan: StudyPlan = { scenario, seed, compensation: found.compensation };
	const judge = driveJudge({ pool, plan, signal, silenceLimit, shardSize, failure: found.failure, onProgress });

	const searches = {} as Record<ChoiceName, Search>;
	for (const choice of choiceNames) searches[choice] = await search(plan, choice, judge);
	const widened = await widen(plan, searches, judge);
	const asked = judge.count() + units;
	const mixture = mixtureAround(widened, searches);
	const drawn = await judge.drawn(mixture, units, 0);
	const requirement = requirementOf(scenario);
	const figures = summariseDraws(drawn, level, requirement, mixture.ordinary);

	const choices = perChoice((choice): WeakestChoice => {
		const { outcome, points, drive } = searches[choice];
		return { outcome, distances: points.map(({ distance }) => distance), drive, ...figures[choice] };
	});
	const digested = [drawn.outcomes, drawn.perHour, drawn.weights, ...mixture.centres.map(({ at }) => at)];
	const digests = await Promise.all(
		digested.map(({ buffer, byteOffset, byteLength }) =>
			sha256(new Uint8Array(buffer as ArrayBuffer, byteOffset, byteLength)),
		),
	);
	const fastest = Math.max(...scenario.points.map((point) => sectorsPerHour(scenario, point)));
	return {
		format: 'anglespread-weakest',
		formatVersion: 1,
		provenance: await provenanceOf({
			scenario,
			seed,
			found,
			digests,
			units: {
				asked,
				finished: judge.count() - judge.failures.length,
				failed: judge.failures.length,
			},
			partial: !judge.isComplete(),
			failures: judge.failures,
			methods,
		}),
		requirement,
		choices,
		search: { drives: asked - units },
		draws: {
			drives: drawn.weights.length,
			centres: mixture.centres.length,
			ordinary: mixture.ordinary,
			meanWeight: drawn.weights.reduce((sum, weight) => sum + weight, 0) / drawn.weights.length,
		},
		gaussianTo: -inverseNormal(Math.min(0.5, requirement.crossingsPerHour / fastest)),
	};
}

type Points = Record<ChoiceName, readonly FailurePoint[]>;

const mixtureAround = (points: Points, searches: Readonly<Record<ChoiceName, Search>>): FailureMixture =>
	failureMixture(
		choiceNames.flatMap((choice) => [
			{ points: points[choice], part: drawParts.failing },
			{ points: searches[choice].heaviest, part: drawParts.rate },
		]),
	);

/** The searches' points and what they overlooked, from pilot draws around them. */
async function widen(
	plan: StudyPlan,
	searches: Readonly<Record<ChoiceName, Search>>,
	judge: DriveJudge,
): Promise<Points> {
	const dimension = partSpace(plan.scenario).slots.length;
	const points: Points = { halfBus: searches.halfBus.points, virtualNeutral: searches.virtualNeutral.points };
	const far = choiceNames.filter((choice) => {
		const { outcome, points: own } = searches[choice];
		return outcome === 'found' && (own[0]?.distance ?? 0) >= pilot.beyond;
	});
	for (let round = 0; round < pilot.rounds && far.length > 0; round++) {
		const mixture = mixtureAround(points, searches);
		const first = pilot.first + round * pilot.draws;
		const drawn = await judge.drawn(mixture, pilot.draws, first);
		if (!judge.isComplete()) break;
		for (const choice of far) {
			const c = choiceNames.indexOf(choice);
			const failing = Array.from(drawn.weights, (_, i) => first + i)
				.filter((_, i) => isShortcoming(drawn.outcomes[i * choiceNames.length + c] as number))
				.map((index) => ({ ...drawFromMixture(mixture, dimension, plan.seed, index), index }));
			const steps = widenPoints(points[choice], failing);
			let step = steps.next();
			while (!step.done) {
				const trials = step.value;
				const judged = await judge.given(
					trials.map(({ point }) => point),
					trials.map(({ draw }) => failing[draw]?.index ?? 0),
					{ choice, of: 'failing' },
				);
				if (!judged) return points;
				step = steps.next(trials.map((_, i) => isShortcoming(judged.outcomes[i * choiceNames.length + c] as number)));
			}
			points[choice] = step.value;
		}
	}
	return points;
}

/** What broke down in the simulation is no region to draw in. */
const isShortcoming = (outcome: number): boolean => outcome > 0 && outcome !== notSimulated;

interface Search extends Pick<WeakestChoice, 'outcome' | 'drive'> {
	readonly points: readonly FailurePoint[];
	/** Where along the same rays density times rate is largest, if farther out. */
	readonly heaviest: readonly FailurePoint[];
}

async function search(plan: StudyPlan, choice: ChoiceName, judge: DriveJudge): Promise<Search> {
	const space = partSpace(plan.scenario);
	const c = choiceNames.indexOf(choice);
	const figures = plan.scenario.points.length * figuresPerPoint;
	const moments = await typicalMoments(space.slots.length, choice, judge);
	if (moments === null) return { outcome: 'unknown', points: [], heaviest: [], drive: null };
	const steps = searchFailures(space.slots.length, searched);
	let step = steps.next();
	while (!step.done) {
		const { points, of } = step.value;
		const pointOf = (figure: number): number => Math.floor(figure / figuresPerPoint);
		const wanted: Wanted = { choice, of: typeof of === 'string' ? of : of.map(pointOf) };
		const judged = await judge.given(points, [moments], wanted);
		if (!judged) return { outcome: 'unknown', points: [], heaviest: [], drive: null };
		const values = points.map(
			(_, i): LimitValue => ({
				fails: (judged.outcomes[i * choiceNames.length + c] as number) > 0,
				figures: judged.figures.subarray(i * figures, (i + 1) * figures),
			}),
		);
		step = steps.next(values);
	}
	const points = step.value;
	const [nearest] = points;
	if (!nearest) return { outcome: 'none', points, heaviest: [], drive: null };
	const drive = await confirm(plan, choice, judge, nearest.point);
	if (nearest.distance === 0) return { outcome: 'nominal', points, heaviest: [], drive };
	return { outcome: 'found', points, heaviest: await heaviestRates(points, choice, moments, judge), drive };
}

/** Of the sets of moments the one whose angle error is the middle one with all parts in the middle, so that a search hangs on no lucky phase. */
async function typicalMoments(dimension: number, choice: ChoiceName, judge: DriveJudge): Promise<number | null> {
	const middle = new Float64Array(dimension);
	const judged = await judge.given(
		searchMoments.map(() => middle),
		searchMoments,
		{ choice, of: 'everything' },
	);
	if (!judged) return null;
	const c = choiceNames.indexOf(choice);
	const angleOf = (place: number): number => judged.angles[place * choiceNames.length + c] as number;
	const order = searchMoments
		.map((_, place) => place)
		.sort((one, other) => angleOf(one) - angleOf(other) || one - other);
	return searchMoments[order[Math.floor(order.length / 2)] as number] as number;
}

/**
 * The failing drive of few parts that fails with most starts and noise:
 * the point's essential parts, their deviations grown until it fails with fifteen
 * of twenty sets of moments.
 */
async function confirm(
	plan: StudyPlan,
	choice: ChoiceName,
	judge: DriveJudge,
	point: Float64Array,
): Promise<WeakestDrive | null> {
	const kept = essential(point);
	const moments = searchMoments;
	const c = choiceNames.indexOf(choice);
	const told = { at: kept, failed: -1 };
	for (let grown = 0; grown <= growth.most && told.failed < confirmationsAsked; grown += growth.step * growth.atOnce) {
		const scales = Array.from({ length: growth.atOnce }, (_, i) => 1 + grown + i * growth.step);
		const trials = scales.map((scale) => kept.map((x) => x * scale));
		const asked = trials.flatMap((trial) => moments.map(() => trial));
		const judged = await judge.given(asked, moments, { choice, of: 'failing' });
		if (!judged) return null;
		for (const [t, at] of trials.entries()) {
			const failed = moments.filter((_, m) =>
				isShortcoming(judged.outcomes[(t * moments.length + m) * choiceNames.length + c] as number),
			).length;
			if (failed > told.failed && told.failed < confirmationsAsked) Object.assign(told, { at, failed });
		}
	}
	const judged = await judge.given(
		moments.map(() => told.at),
		moments,
		{ choice, of: 'everything' },
	);
	return judged && weakestDrive(plan, { point: told.at, judged, choice });
}

/** On the ray through each failing point, where its normal density times the rate is largest. */
async function heaviestRates(
	points: readonly FailurePoint[],
	choice: ChoiceName,
	moments: number,
	judge: DriveJudge,
): Promise<FailurePoint[]> {
	const c = choiceNames.indexOf(choice);
	const scan = points.flatMap((from) => {
		const stations: FailurePoint[] = [];
		for (let t = from.distance + rateScan.step; t <= rateScan.farthest; t += rateScan.step) {
			stations.push({ ...from, point: from.point.map((x) => (x * t) / from.distance), distance: t });
		}
		return stations;
	});
	const judged = await judge.given(
		scan.map(({ point }) => point),
		[moments],
		{ choice, of: 'everything' },
	);
	if (!judged) return [];
	return points.flatMap(({ figure }) => {
		let heaviest: FailurePoint | null = null;
		let most = -Infinity;
		for (const [i, station] of scan.entries()) {
			const rate = judged.perHour[i * choiceNames.length + c] as number;
			const weight = rate > 0 ? ln(rate) - station.distance ** 2 / 2 : -Infinity;
			if (station.figure !== figure || weight <= most) continue;
			heaviest = station;
			most = weight;
		}
		return heaviest ? [heaviest] : [];
	});
}
