import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

/** The comparison in figures, choice beside choice. */
export function Figures({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="figures">
			<table>
				<caption>The comparison in figures</caption>
				<thead>
					<tr>
						<td />
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</th>
						))}
					</tr>
				</thead>
				{answer.figures.map(({ title, note, rows }) => (
					<tbody key={title}>
						<tr class="group">
							<th colSpan={3} scope="rowgroup">
								{title}
								<small>{note}</small>
							</th>
						</tr>
						{rows.map(({ label, figures }) => (
							<tr key={label}>
								<th scope="row">{label}</th>
								{choiceNames.map((choice) => (
									<td key={choice}>
										{figures[choice].main}
										{figures[choice].detail && <small>{figures[choice].detail}</small>}
										{figures[choice].was && <small class="was">{figures[choice].was}</small>}
									</td>
								))}
							</tr>
						))}
					</tbody>
				))}
			</table>
		</section>
	);
}
