import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { Scroll } from '../../parts/scroll.tsx';

/** Why crossings were taken early. */
export function Causes({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="causes" aria-labelledby="causes-title">
			<h3 id="causes-title">Why crossings were taken early</h3>
			<Scroll what="causes of early crossings">
				<table>
					<thead>
						<tr>
							<th scope="col">Cause</th>
							<ChoiceHeads />
						</tr>
					</thead>
					<tbody>
						{answer.causes.map(({ cause, words, figures }) => (
							<tr key={cause}>
								<th scope="row">
									{cause}
									<small>{words}</small>
								</th>
								<ChoiceCells of={(choice) => figures[choice]} />
							</tr>
						))}
					</tbody>
				</table>
			</Scroll>
		</section>
	);
}
