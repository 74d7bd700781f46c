import { choiceNames } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { degrees } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { OriginsResult } from './origins-result.ts';
import { shareWords } from './origins-sentence.ts';

/** What drives the spread of each choice most, in one sentence. */
export function originsHeadline({ point, choices, provenance }: OriginsResult): string {
	const parts = choiceNames.map((choice) => {
		const { groups, spread, rows } = choices[choice];
		const [largest] = [...groups].sort((one, other) => other.first.value - one.first.value);
		if (rows === 0) return `${choiceWords[choice]} finds no crossings there`;
		const own = `${choiceWords[choice]} spreads by ${degrees(spread)}`;
		if (!largest || !(largest.first.low > 0)) return `${own}, with no part shown to drive it alone`;
		const { value, low, high } = largest.first;
		return `${own}, ${shareWords(value)} of it (${shareWords(low)} to ${shareWords(high)}) from ${largest.name}`;
	});
	return `${capital(`at ${point} ${parts.join('; ')}`)} (variance, ${levelWords(provenance.level)} intervals).`;
}
