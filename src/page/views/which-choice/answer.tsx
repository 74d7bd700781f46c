import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChangedWords } from '../../parts/changed-words.tsx';
import { Tally } from './tally.tsx';

/** The answer at the chosen operating point: the sentence, what qualifies it, and drives counted for and against. */
export function Answer({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="answer">
			<p class="lead">{answer.lead}</p>
			{answer.rest && <p class="rest">{answer.rest}</p>}
			{answer.change && <ChangedWords changed={answer.change} />}
			<Tally answer={answer} />
		</section>
	);
}
