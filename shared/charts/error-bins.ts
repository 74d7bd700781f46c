import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import { angleBins } from '../study/angle-histogram.ts';
import type { ChoiceFigures } from '../study/result.ts';
import { type DegreeReach, degreeReach, reachWith } from './reach.ts';

/** One bin of one choice's commutation-angle errors; degrees, and shares of all its measured commutations. */
export interface ErrorBin {
	readonly choice: ChoiceName;
	readonly from: number;
	readonly to: number;
	readonly count: number;
	readonly share: number;
	/** Share at or below `to`, everything left of the picture included. */
	readonly cumulative: number;
}

export interface ErrorBins {
	readonly step: number;
	/** Both choices over the same bins, half-bus first. */
	readonly bins: readonly ErrorBin[];
	/** Commutations outside the bins, of each choice. */
	readonly outside: PerChoice<number>;
	readonly total: PerChoice<number>;
	/** Whether the first and the last bin also hold everything beyond them: the counting ends there. */
	readonly open: { readonly first: boolean; readonly last: boolean };
}

type Histograms = PerChoice<Pick<ChoiceFigures, 'histogram'>>;

/** At most so many bins: more than about one per 8 pixels reads as noise. */
const mostBins = 90;
/** Share that may lie outside on each side of a choice, so that a few wild errors do not squash the rest. */
const outsideShare = 0.0005;

/**
 * Both choices' errors in common bins fit for a picture: neighbouring bins are
 * merged until there are few enough, and the far tails are left out and counted.
 * Returns null where nothing was measured or the two do not share a grid.
 *
 * @param before an earlier result that is drawn with it: the bins reach over its errors too
 */
export function errorBins(choices: Histograms, before: Histograms | null = null): ErrorBins | null {
	const { start, step, counts } = choices.halfBus.histogram;
	const second = choices.virtualNeutral.histogram;
	if (second.start !== start || second.step !== step || second.counts.length !== counts.length) return null;
	const countsOf = (choice: ChoiceName): readonly number[] => choices[choice].histogram.counts;
	const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
	const total = { halfBus: sum(counts), virtualNeutral: sum(second.counts) };
	const own = degreesOf(choices);
	if (!own) return null;
	const { low, high } = reachWith(own, before && degreesOf(before));
	const first = Math.floor((low - start) / step + slack);
	const last = Math.ceil((high - start) / step - slack) - 1;
	const merge = mergeFactor((last - first + 3) * step, step);
	// one empty bin to each side, so that outlines come down to the axis; edges fall on multiples of the merged step
	const width = merge * step;
	const offset = Math.round(start / step);
	const from = Math.floor((first + offset) / merge) - 1;
	const to = Math.floor((last + offset) / merge) + 1;

	const bins = choiceNames.flatMap((choice) => {
		const list = countsOf(choice);
		let below = sum(list.slice(0, Math.max(0, from * merge - offset)));
		return Array.from({ length: to - from + 1 }, (_, i): ErrorBin => {
			const index = (from + i) * merge - offset;
			const count = sum(list.slice(Math.max(0, index), Math.max(0, index + merge)));
			below += count;
			const all = Math.max(1, total[choice]);
			const edge = (n: number): number => Number(((from + n) * width).toPrecision(12));
			return { choice, from: edge(i), to: edge(i + 1), count, share: count / all, cumulative: below / all };
		});
	});
	const inside = (choice: ChoiceName): number => sum(bins.filter((bin) => bin.choice === choice).map((b) => b.count));
	return {
		step: Number(width.toPrecision(12)),
		bins,
		total,
		open: {
			first: first === 0 && start <= angleBins.start,
			last: last === counts.length - 1 && start + counts.length * step >= -angleBins.start - step / 2,
		},
		outside: {
			halfBus: total.halfBus - inside('halfBus'),
			virtualNeutral: total.virtualNeutral - inside('virtualNeutral'),
		},
	};
}

/** Of rounding, in bins. */
const slack = 1e-6;

/** Where all but the far tails of both choices lie; null where nothing was measured. */
function degreesOf(choices: Histograms): DegreeReach | null {
	const reaches = choiceNames.flatMap((choice) => degreeReach(choices[choice].histogram, outsideShare) ?? []);
	if (reaches.length === 0) return null;
	return { low: Math.min(...reaches.map(({ low }) => low)), high: Math.max(...reaches.map(({ high }) => high)) };
}

/** Smallest merge of 1, 2, 5, 10, … bins that leaves few enough. */
function mergeFactor(range: number, step: number): number {
	for (let ten = 1; ; ten *= 10) {
		for (const factor of [ten, 2 * ten, 5 * ten]) if (range / (factor * step) <= mostBins) return factor;
	}
}
