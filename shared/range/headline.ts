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
	const names = axes.map(({ name }) => name).join(' and ');
	const shown = levelWords(requirement.confidence);
	const [end, ...further] = slowest ?? [];
	if (end && further.length === 0) {
		const fastest = Math.max(...values.map(({ at }) => at['operation.speed'] as number));
		const parts = choiceNames.map(
			(choice) => `${speedWords(end.choices[choice], fastest)} with ${choiceWords[choice]}`,
		);
		return `The requirement is shown to hold ${parts.join(' and ')} (${shown} confidence at each speed).`;
	}
	const parts = choiceNames.map((choice) => {
		const holding = values.filter(({ choices }) => choices[choice].verdict.decision === 'holds').length;
		return `${holding === 0 ? 'none' : count(holding)} with ${choiceWords[choice]}`;
	});
	return `Of ${count(values.length)} values of ${names} the requirement is shown to hold at ${parts.join(' and ')} (${shown} confidence at each).`;
}

/** "down to 820 rpm"; "from 2400 rpm down to 820 rpm" where it does not at the fastest. */
function speedWords({ fastest: from, holds }: SlowestOfChoice, fastest: number): string {
	if (from === null || holds === null) return 'at no speed';
	return `${from === fastest ? '' : `from ${quantity(from, 'rpm')} `}down to ${quantity(holds, 'rpm')}`;
}
