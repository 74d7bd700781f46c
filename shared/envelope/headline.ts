import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { count, percent } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { EnvelopeResult } from './envelope-result.ts';

const decided = { holds: 'shown to be enough', fails: 'shown to be too few', undecided: 'not decided' };

/** The envelope's answer in one sentence: what passes at every combination of limits, and at the worst. */
export function envelopeHeadline(result: EnvelopeResult): string {
	const { combinations, requirement, provenance } = result;
	if (provenance.units.finished === 0) return `None of the ${count(provenance.units.asked)} drives was finished.`;
	const parts = choiceNames.map((choice) => {
		const { verdict } = result.everywhere[choice];
		return `${percent(verdict.share)} of drives pass with ${choiceWords[choice]} (${decided[verdict.decision]}; ${worstWords(result, choice)} at its worst)`;
	});
	return `At all ${count(combinations.length)} combinations of limits ${parts.join(', and ')}, where ${levelWords(requirement.share)} are required with ${levelWords(requirement.confidence)} confidence.`;
}

function worstWords({ worst, combinations }: EnvelopeResult, choice: ChoiceName): string {
	const place = worst[choice];
	const found = place === null ? undefined : combinations[place];
	return found ? percent(found.choices[choice].verdict.share) : 'unknown';
}
