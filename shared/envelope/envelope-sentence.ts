import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import { judgedUnits } from '../variants/judged-units.ts';
import type { VariantChoice } from '../variants/variant-figures.ts';
import { count, degrees, percent } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import { tooFewUnits } from '../words/too-few-units.ts';
import type { CombinationResult, EnvelopeResult } from './envelope-result.ts';

type Answered = Omit<EnvelopeResult, 'sentence'>;

const limitWords = {
	holds: 'the requirement holds',
	fails: 'the requirement fails',
	undecided: 'the requirement is not decided',
};

/** The envelope's answer: the worst combination for each choice, what passes there, and what passes everywhere. */
export function envelopeSentence(result: Answered): string {
	const { provenance, combinations, possible, unitsPerCombination, requirement } = result;
	if (provenance.units.finished === 0) {
		return `None of the ${count(provenance.units.asked)} drives was finished: nothing is shown.`;
	}
	const search = provenance.partial
		? '; the search from the worst of each choice for one that is worse was not finished'
		: ', then from the worst of each choice one limit at a time until none was worse';
	const how =
		result.thinned === null
			? `All ${count(possible)} combinations of the limits of the conditions were run.`
			: `Of ${count(possible)} combinations of the limits of the conditions ${count(combinations.length)} were run: a regular fraction in which any ${result.thinned.strength} conditions of a point meet in every combination of their limits${search}.`;
	const judged = judgedUnits(combinations, unitsPerCombination);
	const cut = judged.isCut ? `Stopped early, each was run with ${judged.words}.` : '';
	const few = tooFewUnits(judged.fewest, requirement, 'that the requirement holds');
	return [...choiceNames.map((choice) => worstWords(result, choice)), how, cut, few].filter(Boolean).join(' ');
}

function worstWords({ worst, combinations, everywhere }: Answered, choice: ChoiceName): string {
	const place = worst[choice];
	const found = place === null ? undefined : combinations[place];
	if (found === undefined) return '';
	const { verdict } = found.choices[choice];
	const { share } = everywhere[choice].verdict;
	const all = Number.isNaN(share) ? '' : `, and ${percent(share)} of drives pass at every combination`;
	return (
		`With ${choiceWords[choice]} sensing the worst is ${combinationWords(found)}: ${percent(verdict.share)} of drives pass there and ${errorWords(found.choices[choice])}; ` +
		`${limitWords[verdict.decision]} there${all}.`
	);
}

/** How far 1 drive in 20 is off; where drives lose lock, how many do. */
function errorWords({ unitError: { median, q95 }, points }: VariantChoice): string {
	if (Number.isFinite(q95)) return `1 drive in 20 is beyond ${degrees(q95)}`;
	if (Number.isFinite(median)) return '1 drive in 20 loses lock';
	// a median between one that keeps it and one that loses it is lost too
	return points.some(({ lost, runs }) => lost === runs)
		? 'every drive loses lock'
		: 'at least half of the drives lose lock';
}

/** "slow with speed low (882 rpm), bus voltage high (25.2 V)". */
function combinationWords({
	point,
	limits,
	conditions,
}: Pick<CombinationResult, 'point' | 'limits' | 'conditions'>): string {
	const ends = Object.entries(limits).map(([id, limit]) => {
		const { name, unit } = parameter(id) as NumberRecord;
		return `${name} ${limit} (${quantity(conditions[id] as number, unit)})`;
	});
	return ends.length === 0 ? point : `${point} with ${ends.join(', ')}`;
}
