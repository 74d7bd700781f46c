import { choiceNames } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { degrees } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { fewestRows, type OriginsResult } from './origins-result.ts';
import { shareWords } from './origins-sentence.ts';

/** What drives the spread of each choice most, in one sentence. */
export function originsHeadline({ point, choices, provenance }: OriginsResult): string {
	const parts = choiceNames.map((choice) => {
		const { groups, spread, rows, rowsWithout } = choices[choice];
		const [largest] = [...groups].sort((one, other) => other.first.value - one.first.value);
		if (rows === 0 && rowsWithout === 0) return `nothing is known of ${choiceWords[choice]} yet`;
		if (rows === 0) return `${choiceWords[choice]} loses lock or finds no crossing in some drive of every row`;
		const own = `${choiceWords[choice]} spreads by ${degrees(spread)}`;
		if (rows < fewestRows)
			return `too few rows of drives are whole to share out the spread with ${choiceWords[choice]}`;
		if (!largest || !(largest.first.low > 0)) return `${own}, with no part shown to drive it alone`;
		const { value, low, high } = largest.first;
		return `${own}, ${shareWords(value)} of it (${shareWords(low)} to ${shareWords(high)}) from ${largest.name}`;
	});
	return `${capital(`at ${point} ${parts.join('; ')}`)} (variance, ${levelWords(provenance.level)} intervals).`;
}
