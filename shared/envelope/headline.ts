import { choiceNames } from '../drive/drive.ts';
import { count, percent } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { EnvelopeResult } from './envelope-result.ts';

/** What is shown of a share that must pass. */
export const decidedWords = { holds: 'shown to be enough', fails: 'shown to be too few', undecided: 'not decided' };

/** The envelope's answer in one sentence: what passes at every combination of limits. */
export function envelopeHeadline(result: EnvelopeResult): string {
	const { combinations, requirement, provenance } = result;
	if (provenance.units.finished === 0) return `None of the ${count(provenance.units.asked)} drives was finished.`;
	const parts = choiceNames.map((choice) => {
		const { verdict } = result.everywhere[choice];
		return `${percent(verdict.share)} of drives pass with ${choiceWords[choice]} (${decidedWords[verdict.decision]})`;
	});
	return `At all ${count(combinations.length)} combinations of limits ${parts.join(' and ')}; ${levelWords(requirement.share)} must, with ${levelWords(requirement.confidence)} confidence.`;
}
