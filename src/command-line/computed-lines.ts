import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import type { ChoiceFigures, ComputedRate } from '../../shared/study/result.ts';
import { chance, chancePerHour, count, percent, power, span } from '../../shared/words/figures.ts';
import type { EventKind } from '../../shared/words/names.ts';
import { row } from './two-columns.ts';

type Choices = PerChoice<ChoiceFigures>;

const cells = (
	choices: Choices,
	label: string,
	kind: EventKind | 'all',
	words: (rate: ComputedRate) => string,
): string => {
	const [halfBus, virtualNeutral] = choiceNames.map((choice) => {
		const rate = choices[choice].computed?.[kind];
		return rate === undefined ? '–' : words(rate);
	}) as [string, string];
	return row(label, halfBus, virtualNeutral);
};

const isComputed = (choices: Choices): boolean => choiceNames.some((choice) => choices[choice].computed !== null);

/** One kind's computed rate, to stand beside the counted one. */
export function computedRateLines(kind: EventKind, choices: Choices): string[] {
	return isComputed(choices) ? [cells(choices, '  computed, per sector', kind, ({ rate }) => chance(rate))] : [];
}

/** All three kinds together from their computed chances, what carries them, and what computing gains. */
export function computedLines(choices: Choices, confidence: string): string[] {
	if (!isComputed(choices)) return ['No chances are computed: the majority window is too long to follow.'];
	return [
		'Early, late and missed together, computed',
		cells(choices, '  per sector', 'all', ({ rate }) => chance(rate)),
		cells(choices, `    ${confidence} interval`, 'all', ({ interval, largestUnit }) =>
			largestUnit === null
				? '–'
				: interval === null
					? 'a few drives carry it'
					: span(chance(interval[0]), chance(interval[1])),
		),
		cells(choices, '  per operating hour', 'all', ({ perHour: hourly }) => chancePerHour(hourly)),
		cells(choices, '  effective number of drives', 'all', ({ effective }) =>
			effective === 0 ? '–' : effective < 10 ? effective.toPrecision(2) : count(effective),
		),
		cells(choices, "  largest drive's share", 'all', ({ largestShare, largestUnit }) =>
			largestUnit === null ? '–' : `${percent(largestShare)} (drive ${largestUnit})`,
		),
		cells(choices, '  gain over counting, × drives', 'all', ({ gain }) => (gain === null ? '–' : power(gain))),
	];
}
