import { count } from '../../../../shared/words/figures.ts';
import type { LongStatus } from '../../model/long-question.ts';

interface AskBarProps {
	/** As it was made by `createLongQuestion`. */
	readonly question: {
		readonly request: { readonly value: unknown };
		readonly status: { readonly value: LongStatus };
		readonly answer: { readonly value: { readonly is: string } | null };
		readonly isStale: { readonly value: boolean };
		readonly staleWords: { readonly value: string };
		readonly heard: { readonly value: string };
		readonly ask: () => Promise<void>;
		readonly cancel: () => void;
	};
	/** What one run of it comes to, in words: "11 runs of 500 drives"; '' while an input has a problem. */
	readonly cost: string;
}

/** How far a longer question is, whether its answer is of older inputs, and the way to ask it again or to end it. */
export function AskBar({ question, cost }: AskBarProps) {
	const { state } = question.status.value;
	const isUnderWay = state === 'running' || state === 'waiting';
	const answer = question.answer.value;
	const isStale = question.isStale.value;
	const isWhole = answer?.is === 'finished' && !isStale;
	return (
		<section class={`ask-bar${isStale ? ' is-stale' : ''}`} aria-label="This question's run">
			{question.staleWords.value && <p class="reservation">{question.staleWords.value}</p>}
			<div class="buttons">
				{isUnderWay ? (
					<button type="button" class="controls" onClick={question.cancel}>
						Stop
					</button>
				) : (
					!isWhole && (
						<button
							type="button"
							class={`controls${isStale ? ' primary' : ''}`}
							disabled={question.request.value === null}
							onClick={() => void question.ask()}
						>
							{answer ? 'Run again' : 'Run'}
						</button>
					)
				)}
				<Going status={question.status.value} cost={cost} />
			</div>
			<p class="heard" role="status">
				{question.heard.value}
			</p>
		</section>
	);
}

function Going({ status, cost }: { status: LongStatus; cost: string }) {
	switch (status.state) {
		case 'waiting':
			return <p class="progress">Begins when the run under way is over: {cost}.</p>;
		case 'running': {
			const { asked, finished, failed, of } = status;
			return (
				<div class="progress">
					<progress aria-label="Drives simulated for this question" max={asked || 1} value={finished + failed} />
					<p>
						{of === 'baseline' && 'The same of the baseline: '}
						{asked === 0 ? 'Starting workers' : `${count(finished)} of ${count(asked)} drives simulated`}
						{failed > 0 && <span class="problem">, {count(failed)} failed</span>}
					</p>
				</div>
			);
		}
		case 'failed':
			return <p class="problem">It failed. {status.message}</p>;
		case 'done':
			return (
				<p class="progress">
					{cost ? `${cost}, in` : 'Answered in'} {status.seconds.toFixed(1)} s.
				</p>
			);
		case 'idle':
			return <p class="progress">{status.note || (cost && `${cost}.`)}</p>;
	}
}
