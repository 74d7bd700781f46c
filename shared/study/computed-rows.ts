import { choiceNames, type PerChoice } from '../drive/drive.ts';
import { leastEffective } from '../statistics/effective-number.ts';
import { chance, chancePerHour, count, percent, power, span } from '../words/figures.ts';
import type { EventKind } from '../words/names.ts';
import type { ChoiceFigures, ComputedRate } from './result.ts';

/** One line of the comparison at a point: a figure of both choices in words, or a heading over those that follow. */
export interface PointRow {
	readonly label: string;
	/** How far it stands in; what stands farther in belongs to what is above it. */
	readonly level: 0 | 1 | 2;
	/** Null for a heading. */
	readonly words: PerChoice<string> | null;
}

type Choices = PerChoice<Pick<ChoiceFigures, 'computed'>>;

function row(
	choices: Choices,
	kind: EventKind | 'all',
	label: string,
	words: (rate: ComputedRate) => string,
	level: PointRow['level'] = 1,
): PointRow {
	const cell = ({ computed }: Choices['halfBus']): string => (computed === null ? '–' : words(computed[kind]));
	return { label, level, words: { halfBus: cell(choices.halfBus), virtualNeutral: cell(choices.virtualNeutral) } };
}

const isComputed = (choices: Choices): boolean => choiceNames.some((choice) => choices[choice].computed !== null);

/** One kind's computed rate, to stand beside the counted one. */
export const computedRateRow = (choices: Choices, kind: EventKind): readonly PointRow[] =>
	isComputed(choices) ? [row(choices, kind, 'computed, per sector', ({ rate }) => chance(rate))] : [];

/** All three kinds together from their computed chances, what carries them, and what computing gains. */
export function computedRows(choices: Choices, confidence: string): readonly PointRow[] {
	if (!isComputed(choices)) {
		return [{ label: 'No chances are computed: the majority window is too long to follow.', level: 0, words: null }];
	}
	return [
		{ label: 'Early, late and missed together, computed', level: 0, words: null },
		row(choices, 'all', 'per sector', ({ rate }) => chance(rate)),
		row(choices, 'all', `${confidence} interval`, (rate) => computedIntervalWords(rate), 2),
		row(choices, 'all', 'per operating hour', ({ perHour: hourly }) => chancePerHour(hourly)),
		row(choices, 'all', 'effective number of drives', ({ effective }) =>
			effective === 0 ? '–' : effective < 10 ? effective.toPrecision(2) : count(effective),
		),
		row(choices, 'all', "largest drive's share", ({ largestShare, largestUnit }) =>
			largestUnit === null
				? '–'
				: `${largestShare > 0.999 ? `> ${percent(0.999)}` : percent(largestShare)} (drive ${largestUnit})`,
		),
		row(choices, 'all', 'gain over counting, × drives', ({ gain }) => (gain === null ? '–' : power(gain))),
	];
}

/** Limits of a computed rate. @param hours sectors in an hour, for a rate per hour */
export function computedIntervalWords({ interval, largestUnit }: ComputedRate, hours = 1): string {
	if (largestUnit === null) return '–';
	return interval === null
		? `none: under ${leastEffective} drives`
		: span(chance(hours * interval[0]), chance(hours * interval[1]));
}

/** A rate in words, for those who read it alone. */
export function computedWords(computed: ComputedRate): string {
	const { rate, perHour: hourly, interval } = computed;
	const limits =
		interval === null ? `fewer than ${leastEffective} drives carry it` : `interval ${computedIntervalWords(computed)}`;
	return `${chance(rate)} per sector, ${limits}; ${chancePerHour(hourly)} an hour`;
}
