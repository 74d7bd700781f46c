import type { PairedFigures } from '../../../shared/study/result.ts';
import { count, percent } from '../../../shared/words/figures.ts';
import { choiceWords } from '../../../shared/words/names.ts';

/** In how many drives each choice had the smaller error; shares of 100 for a bar, and words. */
export function tally({ smaller, ties, units }: PairedFigures) {
	if (units === 0) return null;
	const part = (of: number) => ({ hundred: (100 * of) / units, words: `${count(of)} (${percent(of / units)})` });
	return {
		halfBus: { ...part(smaller.halfBus), name: `${choiceWords.halfBus} has the smaller error in` },
		virtualNeutral: { ...part(smaller.virtualNeutral), name: `${choiceWords.virtualNeutral} in` },
		ties: ties === 0 ? '' : `equal in ${count(ties)}`,
		of: `of ${count(units)} drives run with both`,
	};
}
