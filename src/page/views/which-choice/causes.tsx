import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

/** Why crossings were taken early. */
export function Causes({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="causes" aria-labelledby="causes-title">
			<h3 id="causes-title">Why crossings were taken early</h3>
			<WideTable what="causes of early crossings">
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
			</WideTable>
		</section>
	);
}
