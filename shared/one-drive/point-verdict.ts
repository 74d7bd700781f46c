import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import { medianUnbiasedQuantile } from '../statistics/median-unbiased-quantile.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { type Requirement, requirementOf, type Shortcoming } from '../study/unit-passes.ts';
import { chancePerHour, count, degrees, power } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { type DriveOutcome, falseCrossings } from './drive-outcome.ts';
import type { PairOutcome } from './unit-outcomes.ts';

/** How a drive does at a point over all its starts, judged as the study judges it (shared/study/unit-passes.ts). */
export interface PointVerdict {
	/** The first reason why it does not pass; null where it does. */
	readonly shortcoming: Shortcoming | null;
	readonly starts: number;
	/** Starts from which it loses lock, and from which it stays short of its torque. */
	readonly lost: number;
	readonly torqueNotReached: number;
	/** The required share's quantile of |angle error| over all starts, degrees; infinite where a run lost lock. */
	readonly judgedError: number;
	/** False and missed crossings in an operating hour: computed, else as counted. */
	readonly perHour: number;
}

/** @param starts its outcomes from every start at the point @returns null where one could not be simulated */
export function pointVerdicts(
	starts: readonly PairOutcome[],
	scenario: Pick<Scenario, 'values'>,
	point: OperatingPoint,
): PerChoice<PointVerdict> | null {
	const pairs = starts.filter((pair) => !('failure' in pair)) as readonly PerChoice<DriveOutcome>[];
	if (pairs.length === 0 || pairs.length < starts.length) return null;
	const requirement = requirementOf(scenario);
	const hourly = sectorsPerHour(scenario, point);
	return perChoice((choice) =>
		verdictOf(
			pairs.map((pair) => pair[choice]),
			requirement,
			hourly,
		),
	);
}

function verdictOf(starts: readonly DriveOutcome[], requirement: Requirement, hourly: number): PointVerdict {
	const lost = starts.filter((one) => one.lost).length;
	const torqueNotReached = starts.filter((one) => one.torqueNotReached).length;
	const angles = Float64Array.from(starts.flatMap((one) => [...one.angles])).sort();
	const judgedError =
		lost > 0
			? Number.POSITIVE_INFINITY
			: angles.length === 0
				? 0
				: medianUnbiasedQuantile(angles, requirement.quantile);
	const perHour = rateOf(starts, hourly);
	const shortcoming: Shortcoming | null =
		lost > 0
			? 'lock'
			: torqueNotReached > 0
				? 'torque'
				: !(judgedError <= requirement.angleLimit)
					? 'angle'
					: perHour > requirement.crossingsPerHour
						? 'rate'
						: null;
	return { shortcoming, starts: starts.length, lost, torqueNotReached, judgedError, perHour };
}

function rateOf(starts: readonly DriveOutcome[], hourly: number): number {
	const run = starts.filter(({ measured }) => measured > 0);
	const sectors = run.reduce((sum, { measured }) => sum + measured, 0);
	if (sectors === 0) return 0;
	const isComputed = run.every(({ perHour }) => !Number.isNaN(perHour));
	return (
		run.reduce((sum, one) => sum + (isComputed ? one.perHour * one.measured : hourly * falseCrossings(one)), 0) /
		sectors
	);
}

/** The choices with which a drive does not pass. */
export const failingChoices = (verdicts: PerChoice<PointVerdict>): readonly ChoiceName[] =>
	choiceNames.filter((choice) => verdicts[choice].shortcoming !== null);

/** What came of the drive over all its starts, which decides whether it passes: a sentence. */
export function verdictWords(
	{ shortcoming, starts, lost, torqueNotReached, judgedError, perHour }: PointVerdict,
	{ quantile, crossingsPerHour }: Pick<Requirement, 'quantile' | 'crossingsPerHour'>,
	point: string,
): string {
	const outcome = `the drive ${shortcoming === null ? 'passes' : 'fails'} at ${point}`;
	if (starts === 1) return `This is its only start: ${outcome}.`;
	const of = (some: number): string => `From ${count(some)} of its ${count(starts)} starts it`;
	switch (shortcoming) {
		case 'lock':
			return `${of(lost)} loses lock: ${outcome}.`;
		case 'torque':
			return `${of(torqueNotReached)} stays short of its torque: ${outcome}.`;
		case 'rate':
			return `Over its ${count(starts)} starts ${chancePerHour(perHour)} wrong crossings an hour are to be expected, where ${power(crossingsPerHour)} may be: ${outcome}.`;
		default:
			return `Over its ${count(starts)} starts ${levelWords(quantile)} lie within ${degrees(judgedError)}: ${outcome}.`;
	}
}
