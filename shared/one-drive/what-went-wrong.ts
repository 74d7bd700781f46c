import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { chancePerHour, count, degrees, power, signedDegrees } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { list } from '../words/list.ts';
import { choiceWords, eventKinds, eventWords } from '../words/names.ts';
import { type DriveOutcome, falseCrossings } from './drive-outcome.ts';
import type { PairOutcome } from './unit-outcomes.ts';
import { type Removal, removals, removalWords } from './without.ts';

/** How a run fails, the worst first; the first that applies. */
export const troubles = ['lost', 'torque', 'false', 'angle', 'rate', 'none'] as const;
export type Trouble = (typeof troubles)[number];

export interface Diagnosis {
	readonly choice: ChoiceName;
	readonly trouble: Trouble;
	/** What was taken out so that the run no longer fails in that way. */
	readonly cures: readonly Removal[];
	/** What happened and why, in words with figures. */
	readonly sentence: string;
}

/** What a run is held against. */
type Limits = Pick<Requirement, 'angleLimit' | 'quantile' | 'crossingsPerHour'>;

/** How a run fails. */
export function troubleOf(outcome: DriveOutcome, { angleLimit, crossingsPerHour }: Limits): Trouble {
	if (outcome.lost) return 'lost';
	if (outcome.torqueNotReached) return 'torque';
	if (falseCrossings(outcome) > 0) return 'false';
	if (outcome.judgedError > angleLimit) return 'angle';
	return outcome.perHour > crossingsPerHour ? 'rate' : 'none';
}

/**
 * What went wrong with each choice and what it is due to: the drive as it is against the same drive with each
 * disturbance taken out, one at a time.
 *
 * @param runs as `driveCauses` gives them: as it is, then without each of `removals`
 */
export function whatWentWrong(runs: readonly PairOutcome[], limits: Limits): readonly Diagnosis[] {
	const [asItIs] = runs;
	if (!asItIs || 'failure' in asItIs) return [];
	return choiceNames.map((choice): Diagnosis => {
		const found = asItIs[choice];
		const trouble = troubleOf(found, limits);
		const others = removals.flatMap((removal, i) => {
			const run = runs[i + 1];
			return run && !('failure' in run) ? [{ removal, outcome: run[choice] }] : [];
		});
		const rank = troubles.indexOf(trouble);
		const cures = others
			.filter(({ outcome }) => troubles.indexOf(troubleOf(outcome, limits)) > rank)
			.map(({ removal }) => removal);
		const what = `With ${choiceWords[choice]} sensing ${troubleWords(found, trouble, limits)}`;
		if (trouble === 'none') return { choice, trouble, cures: [], sentence: what };
		return { choice, trouble, cures, sentence: `${what} ${causeSentence(found, trouble, cures, others)}` };
	});
}

function troubleWords(
	found: DriveOutcome,
	trouble: Trouble,
	{ angleLimit, quantile, crossingsPerHour }: Limits,
): string {
	const share = levelWords(quantile);
	switch (trouble) {
		case 'lost':
			return `this drive loses lock${found.measured > 0 ? ` in its ${ordinal(found.measured)} measured sector` : ' before its first measured sector'}.`;
		case 'torque':
			return 'this drive runs at full duty and stays more than 2\u00a0% short of its torque.';
		case 'false': {
			const kinds = eventKinds.filter((kind) => found.events[kind] > 0);
			const all = list(kinds.map((kind) => `${count(found.events[kind])} ${singular(kind, found.events[kind])}`));
			return `this drive takes ${all} in ${count(found.measured)} measured sectors${firstWords(found)}.`;
		}
		case 'angle':
			return `${share} of this start's commutations lie within ${degrees(found.judgedError)} of where they belong, beyond the limit of ${degrees(angleLimit)}; they are ${signedDegrees(found.meanError)} off on average.`;
		case 'rate':
			return `no crossing was false or missed, but by the noise and its readings' distances from the threshold ${chancePerHour(found.perHour)} an hour are to be expected, where ${power(crossingsPerHour)} may be.`;
		case 'none':
			return `nothing went wrong from this start: ${share} of its commutations lie within ${degrees(found.judgedError)}, the limit is ${degrees(angleLimit)}${singleWords(found, angleLimit)}.`;
	}
}

/** Commutations beyond the limit that a requirement on a share of them allows. */
function singleWords({ angles, largestError }: DriveOutcome, limit: number): string {
	const beyond = angles.filter((angle) => angle > limit).length;
	if (beyond === 0) return '';
	return `; ${count(beyond)} of ${count(angles.length)} ${beyond === 1 ? 'is' : 'are'} beyond it, by up to ${degrees(largestError - limit)}, as the requirement allows`;
}

function firstWords({ first }: DriveOutcome): string {
	if (!first) return '';
	if (first.kind === 'missed') return `, the first in sector ${count(first.sector)}`;
	return `, the first in sector ${count(first.sector)}, ${degrees(Math.abs(first.error))} ${first.error < 0 ? 'early' : 'late'}`;
}

interface Other {
	readonly removal: Removal;
	readonly outcome: DriveOutcome;
}

function causeSentence(
	found: DriveOutcome,
	trouble: Trouble,
	cures: readonly Removal[],
	others: readonly Other[],
): string {
	if (cures.length === 1) {
		const [cure] = cures as [Removal];
		return `Without ${removalWords[cure]} this does not happen: that is the cause.`;
	}
	if (cures.length > 1) {
		const [last, ...rest] = cures.map((cure) => removalWords[cure]).reverse();
		return `It takes ${rest.reverse().join(', ')} and ${last} together: without any one of them this does not happen.`;
	}
	const size = sizeOf[trouble];
	const before = size(found);
	const best = others
		.map((other) => ({ ...other, size: size(other.outcome) }))
		.filter((other) => other.size < before)
		.sort((a, b) => a.size - b.size)[0];
	const none = 'Taking out ringing, noise, mismatch, ripple or offset alone does not cure it';
	if (!best)
		return `${none} or lessen it: it lies in the nominal design, the operating point or what its parts have in common.`;
	return `${none}; ${removalWords[best.removal]} adds most to it (${figureOf[trouble](best.outcome)} without).`;
}

/** How bad a trouble of each kind is, to be compared within the kind. */
const sizeOf: Readonly<Record<Trouble, (outcome: DriveOutcome) => number>> = {
	lost: ({ measured }) => -measured,
	torque: ({ meanTorque }) => -meanTorque,
	false: falseCrossings,
	angle: ({ judgedError }) => judgedError,
	rate: ({ perHour: rate }) => rate,
	none: () => 0,
};

const figureOf: Readonly<Record<Trouble, (outcome: DriveOutcome) => string>> = {
	lost: ({ measured }) => `lost ${measured > 0 ? `in the ${ordinal(measured)} measured sector` : 'while settling'}`,
	torque: ({ meanTorque }) => `${Number((1000 * meanTorque).toPrecision(4))} mN·m`,
	false: (outcome) => count(falseCrossings(outcome)),
	angle: ({ judgedError }) => degrees(judgedError),
	rate: ({ perHour: rate }) => `${chancePerHour(rate)} an hour`,
	none: () => '',
};

const singular = (kind: keyof typeof eventWords, many: number): string =>
	many === 1 ? eventWords[kind].replace(/s$/, '') : eventWords[kind];

function ordinal(n: number): string {
	const tail = n % 100 > 10 && n % 100 < 14 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
	return `${count(n)}${tail}`;
}
