import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';

/** Why crossings were taken early. */
export function Causes({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="causes" aria-labelledby="causes-title">
			<h3 id="causes-title">Why crossings were taken early</h3>
			<table>
				<thead>
					<tr>
						<th scope="col">Cause</th>
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								{choiceWords[choice]}
							</th>
						))}
					</tr>
				</thead>
				<tbody>
					{answer.causes.map(({ cause, words, figures }) => (
						<tr key={cause}>
							<th scope="row">
								{cause}
								<small>{words}</small>
							</th>
							{choiceNames.map((choice) => (
								<td key={choice}>{figures[choice]}</td>
							))}
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}
