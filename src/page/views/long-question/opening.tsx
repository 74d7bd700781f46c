import type { ComponentProps } from 'preact';
import { useEffect } from 'preact/hooks';
import { Cautions } from '../cautions.tsx';
import { AskBar } from './ask-bar.tsx';

interface OpeningProps extends ComponentProps<typeof AskBar> {
	readonly heading: string;
	/** Null before the first figures. */
	readonly answer: {
		readonly headline: string;
		/** Against the pinned baseline; '' where there is none. */
		readonly changed: string;
		readonly reservations: readonly string[];
	} | null;
	readonly waiting: string;
	readonly question: ComponentProps<typeof AskBar>['question'] & { readonly setOpen: (open: boolean) => void };
}

/** How the view of a longer question opens: its answer in a sentence, its run, and what qualifies it. */
export function Opening({ heading, answer, waiting, question, cost }: OpeningProps) {
	useEffect(() => {
		question.setOpen(true);
		return () => question.setOpen(false);
	}, []);
	return (
		<section class="overall" aria-labelledby="question">
			<h2 id="question">{heading}</h2>
			<p class="sentence">{answer ? answer.headline : <span class="waiting">{waiting}</span>}</p>
			{answer?.changed && <p class="changed">{answer.changed}</p>}
			<AskBar question={question} cost={cost} />
			{answer?.reservations.map((words) => (
				<p key={words} class="reservation">
					{words}
				</p>
			))}
			<Cautions />
		</section>
	);
}
