import { sampleCorrelation } from 'simple-statistics';

/**
 * Spearman's rank correlation: Pearson's of the ranks, ties sharing their mean
 * rank. NaN with fewer than two pairs, or where one side is all ties. +∞ (a lost
 * unit) ranks last; NaN is refused.
 *
 * Source: C. Spearman, American Journal of Psychology 15 (1904) 72–101.
 */
export function rankCorrelation(x: ArrayLike<number>, y: ArrayLike<number>): number {
	if (x.length !== y.length) throw new RangeError(`${x.length} values paired with ${y.length}`);
	if (x.length < 2) return Number.NaN;
	return sampleCorrelation(meanRanks(x), meanRanks(y));
}

function meanRanks(values: ArrayLike<number>): number[] {
	const order = Uint32Array.from({ length: values.length }, (_, i) => i);
	const at = (place: number): number => values[order[place] as number] as number;
	for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) throw new RangeError(`value ${i} is NaN`);
	order.sort((a, b) => {
		const left = values[a] as number;
		const right = values[b] as number;
		return left < right ? -1 : left > right ? 1 : 0;
	});
	const ranks = new Array<number>(values.length);
	for (let start = 0; start < order.length; ) {
		let end = start + 1;
		while (end < order.length && at(end) === at(start)) end++;
		for (let place = start; place < end; place++) ranks[order[place] as number] = (start + 1 + end) / 2;
		start = end;
	}
	return ranks;
}
