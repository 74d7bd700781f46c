import type { ComponentChildren } from 'preact';
import { Cautions } from '../cautions.tsx';

interface AnswerProps {
	/** Null before the first figures. */
	readonly answer: {
		readonly lead: string;
		readonly rest: string;
		readonly reservations: readonly string[];
		readonly requirement: string;
	} | null;
	readonly waiting: string;
	/** The run's bar. */
	readonly children: ComponentChildren;
}

/** The answer in a sentence, what qualifies it, and how its run goes. */
export function Answer({ answer, waiting, children }: AnswerProps) {
	return (
		<section class="overall" aria-labelledby="question">
			<p class="sentence">{answer ? answer.lead : <span class="waiting">{waiting}</span>}</p>
			{answer?.rest && <p class="rest">{answer.rest}</p>}
			{answer && <p class="rest">{answer.requirement}</p>}
			{children}
			{answer?.reservations.map((words) => (
				<p key={words} class="reservation">
					{words}
				</p>
			))}
			<Cautions />
		</section>
	);
}
