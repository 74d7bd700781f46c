import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChoiceCells, ChoiceHeadRow } from '../../parts/choice-cells.tsx';
import { FigureWords } from '../../parts/figure-words.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

/** The comparison in figures, choice beside choice. */
export function Figures({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="figures">
			<WideTable what="the comparison in figures">
				<caption>The comparison in figures</caption>
				<ChoiceHeadRow />
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
								<ChoiceCells of={(choice) => <FigureWords figure={figures[choice]} />} />
							</tr>
						))}
					</tbody>
				))}
			</WideTable>
		</section>
	);
}
