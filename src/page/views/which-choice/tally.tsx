import type { WhichChoiceAnswer } from '../../model/which-choice.ts';

/** The drives that did better with each choice, as one bar from both sides. */
export function Tally({ answer: { tally } }: { answer: WhichChoiceAnswer }) {
	if (!tally) return null;
	const { halfBus, virtualNeutral, ties, of } = tally;
	return (
		<div class="tally">
			<p class="halfBus">
				{halfBus.name} {halfBus.words}
			</p>
			<p class="virtualNeutral">
				{virtualNeutral.name} {virtualNeutral.words}
			</p>
			<svg aria-hidden="true">
				<rect class="halfBus" width={`${halfBus.hundred}%`} height="100%" />
				<rect
					class="virtualNeutral"
					x={`${100 - virtualNeutral.hundred}%`}
					width={`${virtualNeutral.hundred}%`}
					height="100%"
				/>
			</svg>
			<p class="of">
				{of}
				{ties && `, ${ties}`}
			</p>
		</div>
	);
}
