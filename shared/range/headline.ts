import { choiceNames } from '../drive/drive.ts';
import { count } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { quantity } from '../words/quantity.ts';
import type { RangeResult, SlowestOfChoice } from './range-result.ts';

type Answered = Pick<RangeResult, 'axes' | 'provenance' | 'requirement' | 'slowest' | 'values'>;

/** The range's answer in one short sentence: down to which speed, or at how many values, the requirement holds with each choice. */
export function rangeHeadline({ axes, provenance, requirement, slowest, values }: Answered): string {
	if (provenance.units.finished === 0) return `None of the ${count(provenance.units.asked)} drives was finished.`;
	if (provenance.partial)
		return `${count(provenance.units.finished)} of ${count(provenance.units.asked)} drives are simulated: where the requirement holds is not known yet.`;
	const names = axes.map(({ name }) => name).join(' and ');
	const shown = levelWords(requirement.confidence);
	const [end, ...further] = slowest ?? [];
	if (end && further.length === 0) {
		const fastest = Math.max(...values.map(({ at }) => at['operation.speed'] as number));
		const begins = choiceNames.flatMap((choice) => end.choices[choice].fastest ?? []);
		const isSame = begins.every((from) => from === begins[0]);
		let said = isSame ? fastest : Number.NaN;
		const parts = choiceNames.map((choice) => {
			const words = speedWords(end.choices[choice], said);
			// where both hold from the same speed it is said once
			if (isSame) said = end.choices[choice].fastest ?? said;
			return `${words} with ${choiceWords[choice]}`;
		});
		return `The requirement is shown to hold ${parts.join(' and ')} (${shown} confidence at each speed).`;
	}
	const parts = choiceNames.map((choice) => {
		const holding = values.filter(({ choices }) => choices[choice].verdict.decision === 'holds').length;
		return `${holding === 0 ? 'none' : count(holding)} with ${choiceWords[choice]}`;
	});
	return `Of ${count(values.length)} values of ${names} the requirement is shown to hold at ${parts.join(' and ')} (${shown} confidence at each).`;
}

/** "from 2400 rpm down to 820 rpm"; "down to 820 rpm" where it is known from where. */
function speedWords({ fastest: from, holds }: SlowestOfChoice, known: number): string {
	if (from === null || holds === null) return 'at no speed';
	return `${from === known ? '' : `from ${quantity(from, 'rpm')} `}down to ${quantity(holds, 'rpm')}`;
}
