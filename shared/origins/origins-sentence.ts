import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { count, degrees } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { list } from '../words/list.ts';
import { choiceWords } from '../words/names.ts';
import { type ChoiceOrigins, fewestRows, type GroupShare } from './origins-result.ts';

interface Answered {
	readonly point: string;
	readonly level: number;
	readonly choices: PerChoice<ChoiceOrigins>;
	/** Spread that the time between readings alone makes, degrees. */
	readonly gridSpread: number;
}

/** Named one by one until this share of the variance is told, three at most. */
const told = 0.8;
const mostNamed = 3;
/** Least that interactions must come to, to be spoken of; and they must be shown to be there at all. */
const spokenOf = 0.1;

/** Where the spread of each choice comes from, with figures and confidence. */
export function originsSentence(answered: Answered): string {
	const wait = `The time between readings is not in these shares: it spreads single crossings by ${degrees(answered.gridSpread)} more (standard deviation).`;
	return [...choiceNames.map((choice) => choiceSentence(answered, choice)), wait].join(' ');
}

function choiceSentence({ point, level, choices }: Answered, choice: ChoiceName): string {
	const { rows, rowsWithout, groups, spread, together, togetherInterval } = choices[choice];
	const largest = groups[0];
	if (!largest || !Number.isFinite(largest.first.low)) {
		const name = `With ${choiceWords[choice]} at ${point}`;
		if (spread === 0) return `${name} nothing spreads: the mean errors of all drives are the same.`;
		if (rows > 0) {
			return `${name} ${rows === 1 ? 'one row of drives is' : `${count(rows)} rows of drives are`} too few to share out the spread: it takes ${fewestRows}.`;
		}
		return rowsWithout > 0
			? `${name} nothing is shown: in each of the ${rowsWithout} rows of drives at least one lost lock or found no crossing.`
			: `${name} nothing is shown: no row of drives was finished.`;
	}
	if (groups.length === 1) {
		return `All of the ${choiceWords[choice]} spread at ${point} (${degrees(spread)} standard deviation) comes from ${largest.name}: nothing else varies.`;
	}
	const named: GroupShare[] = [];
	let sum = 0;
	for (const group of [...groups].sort((one, other) => other.first.value - one.first.value)) {
		if (named.length === mostNamed || sum >= told || group.first.low <= 0) break;
		named.push(group);
		sum += group.first.value;
	}
	const parts = named.map(({ first, name }, place) => {
		const interval =
			place === 0
				? ` (${levelWords(level)} interval ${shareWords(first.low)} to ${shareWords(first.high)})`
				: ` (${shareWords(first.low)} to ${shareWords(first.high)})`;
		return `${shareWords(first.value)} ${place === 0 ? 'comes ' : ''}from ${name}${interval}`;
	});
	const lead = `Of the ${choiceWords[choice]} spread at ${point} (${degrees(spread)} standard deviation)`;
	const [least, most] = togetherInterval ?? [0, 0];
	const tail =
		together > spokenOf && least > 0
			? ` About ${shareWords(together)} (${shareWords(least)} to ${shareWords(most)}) is what they do together and none alone.`
			: '';
	return parts.length > 0
		? `${lead}, ${list(parts)}.${tail}`
		: `${lead}, no group is shown to make a part by itself.${tail}`;
}

/** A share of the variance in whole per cent, as far as its interval is worth it; estimates above all of it are of all of it. */
export function shareWords(share: number): string {
	if (Number.isNaN(share)) return '–';
	const whole = Math.min(100, Math.round(100 * share));
	return `${whole < 0 ? '−' : ''}${Math.abs(whole)}\u00a0%`;
}
