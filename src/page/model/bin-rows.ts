import type { ErrorBins } from '../../../shared/charts/error-bins.ts';
import { count, degrees, percent, span } from '../../../shared/words/figures.ts';

/** The table behind both error pictures: a row a bin, with the count and the share up to its end for each choice. */
export function binRows({ bins }: ErrorBins) {
	const half = bins.length / 2;
	return bins.slice(0, half).map((first, i) => ({
		from: first.from,
		to: first.to,
		range: span(degrees(first.from), degrees(first.to)),
		cells: [first, bins[half + i] ?? first].map((bin) => ({
			choice: bin.choice,
			counted: count(bin.count),
			cumulative: percent(bin.cumulative),
		})),
	}));
}
