import type { ComponentProps } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Changed } from '../../model/change-words.ts';
import { ChangedWords } from '../../parts/changed-words.tsx';
import { Cautions } from '../cautions.tsx';
import { Reservations } from '../reservations.tsx';
import { AskBar } from './ask-bar.tsx';

interface OpeningProps extends ComponentProps<typeof AskBar> {
	/** Not where one stands over several questions. */
	readonly heading?: string;
	/** Null before the first figures. */
	readonly answer: {
		readonly headline: string;
		readonly reservations: readonly string[];
		/** Null where no baseline is pinned. */
		readonly changed?: Changed | null;
	} | null;
	readonly waiting: string;
	readonly question: ComponentProps<typeof AskBar>['question'] & { readonly setOpen: (open: boolean) => void };
}

/** How the view of a longer question opens: its answer in a sentence, its run, and what qualifies it. While it is on show the question is open. */
export function Opening({ heading, answer, waiting, question, cost }: OpeningProps) {
	useEffect(() => {
		question.setOpen(true);
		return () => question.setOpen(false);
	}, []);
	return (
		<section class="overall" aria-labelledby="question">
			{heading && <h2 id="question">{heading}</h2>}
			<p class="sentence">{answer ? answer.headline : <span class="waiting">{waiting}</span>}</p>
			{answer?.changed && <ChangedWords changed={answer.changed} />}
			<AskBar question={question} cost={cost} />
			<Reservations words={answer?.reservations ?? []} />
			<Cautions />
		</section>
	);
}
