import { choiceNames } from '../drive/drive.ts';
import { choiceWords } from '../words/names.ts';
import type { ChangesResult } from './changes-result.ts';

/** What changed, in a few words: the verdicts first, then how much of the inputs. */
export function changesSentence(changes: Omit<ChangesResult, 'sentence'>): string {
	const { before, after, verdicts, inputs, sameScenario } = changes;
	if (before.resultDigest === after.resultDigest && sameScenario && !before.partial && !after.partial) {
		return 'Nothing changed: both results are of the same scenario, and every drive is the same to the last bit.';
	}
	const moved = choiceNames.filter((choice) => verdicts[choice].step !== 'same');
	const verdictWords =
		moved.length === 0
			? `No verdict changed: ${choiceNames.map((choice) => `${choiceWords[choice]} ${decisionWords[verdicts[choice].after]}`).join(', ')}.`
			: moved
					.map((choice) => {
						const { step, before: was, after: is } = verdicts[choice];
						return `The verdict on ${choiceWords[choice]} got ${step}: it ${pastWords[was]}, and now ${decisionWords[is]}.`;
					})
					.join(' ');
	const parts = inputs === null ? null : inputs.length;
	const inputWords =
		parts === null
			? sameScenario
				? 'The scenario is the same.'
				: 'The scenario is another one; what is different cannot be told, since a file does not hold its scenario.'
			: parts === 0
				? 'No input changed.'
				: `${parts} ${parts === 1 ? 'input' : 'inputs'} changed.`;
	return `${verdictWords} ${inputWords}`;
}

const decisionWords = { holds: 'holds', fails: 'fails', undecided: 'is undecided' } as const;
const pastWords = { holds: 'held', fails: 'failed', undecided: 'was undecided' } as const;
