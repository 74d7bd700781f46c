import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { formatRelative } from '../parameters/format-quantity.ts';
import { judgedUnits } from '../variants/judged-units.ts';
import { capital } from '../words/capital.ts';
import { count, percent } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import { tooFewUnits } from '../words/too-few-units.ts';
import type { RangeResult, SlowestSpeed } from './range-result.ts';
import { placeWords, valueWords } from './setting.ts';

type Answered = Omit<RangeResult, 'sentence'>;

/** The range's answer: down to which speed, or at which values, the requirement holds with each choice, and how surely. */
export function rangeSentence(result: Answered): string {
	const { requirement, unitsPerValue, values, slowest, provenance } = result;
	if (provenance.units.finished === 0) {
		return `None of the ${count(provenance.units.asked)} drives was finished: nothing is shown.`;
	}
	const judged = judgedUnits(values, unitsPerValue);
	const isEarly = values.some(({ units }) => units.asked < unitsPerValue);
	const by = `${judged.words}${judged.isCut ? '' : ', the same at all of them'}${isEarly ? ', fewer where it fails for certain with both choices' : ''}`;
	const asked = `It holds where at least ${levelWords(requirement.share)} of drives pass, shown with ${levelWords(requirement.confidence)} confidence at each value by ${by}.`;
	const few = tooFewUnits(judged.fewest, requirement);
	if (slowest)
		return [...slowest.map((one) => slowestWords(result, one)), loadWords(result), asked, few]
			.filter(Boolean)
			.join(' ');
	const names = result.axes.map(({ name }) => name).join(' and ');
	const answers = choiceNames.map((choice) => {
		const holding = values.filter(({ choices }) => choices[choice].verdict.decision === 'holds').length;
		const failing = values.filter(({ choices }) => choices[choice].verdict.decision === 'fails').length;
		const where =
			holding === values.length
				? 'holds everywhere'
				: holding > 0
					? `holds at ${holding} of them`
					: failing === values.length
						? 'fails everywhere'
						: 'is shown to hold nowhere';
		return `with ${choiceWords[choice]} it ${where} (${bestWords(result, choice)})`;
	});
	const looked =
		values.length === 1
			? `One value of ${names} was looked at`
			: `${count(values.length)} values of ${names} were looked at`;
	return [`${looked}: ${answers.join('; ')}.`, asked, few].filter(Boolean).join(' ');
}

function slowestWords(result: Answered, { at, choices, resolution }: SlowestSpeed): string {
	const speeds = result.axes.find(({ id }) => id === 'operation.speed')?.values ?? [];
	const fastest = Math.max(...speeds);
	const words = choiceNames.map((choice) => {
		const { fastest: from, holds, fails, decision } = choices[choice];
		const name = `with ${choiceWords[choice]} sensing the requirement`;
		if (from === null || holds === null) return `${name} is not shown to hold at any speed looked at`;
		const range = from === fastest ? '' : ` from ${rpm(from)} (not at the faster ones)`;
		if (fails === null) return `${name} holds${range} at every speed looked at, down to ${rpm(holds)}`;
		const below = decision === 'fails' ? 'fails' : 'is no longer shown to hold';
		return `${name} holds${range} down to ${rpm(holds)} and ${below} at ${rpm(fails)}`;
	});
	const where = Object.keys(at).length > 0 ? `At ${placeWords(at)} ` : '';
	const turned = choiceNames.map((choice) => choices[choice].turnedRound);
	const caution =
		Math.max(...turned) > 0
			? ` Not every drive that passes at a speed passes at the faster ones (all but ${count(turned[0] ?? 0)} with half-bus, ${count(turned[1] ?? 0)} with virtual neutral), so take the confidence of the search as approximate.`
			: '';
	const searched = choiceNames.some((choice) => choices[choice].fails !== null && choices[choice].holds !== null);
	const narrowed = searched ? ` The slowest speed is narrowed down to ${formatRelative(resolution)}.` : '';
	const text = words.join('; ');
	return `${where}${where ? text : capital(text)}.${narrowed}${caution}`;
}

function loadWords({ load, point, slowest }: Answered): string {
	if (load === null || slowest === null) return '';
	return load === 'square'
		? `This is for the load line through ${point}: torque as the square of the speed.`
		: `This is for the torque of ${point}, the same at every speed.`;
}

/** The value with the largest passing share. */
function bestWords({ values }: Answered, choice: ChoiceName): string {
	const share = (value: RangeResult['values'][number]): number => {
		const { share: seen } = value.choices[choice].verdict;
		return Number.isNaN(seen) ? -1 : seen;
	};
	const best = values.reduce((one, other) => (share(other) > share(one) ? other : one));
	if (share(best) <= 0) return 'no drive passes';
	const where = Object.entries(best.at)
		.map(([id, value]) => valueWords(id, value))
		.join(' and ');
	return `most drives pass at ${where}: ${percent(share(best))}`;
}

const rpm = (speed: number): string => quantity(speed, 'rpm');
