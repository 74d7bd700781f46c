import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { FigureWords } from '../../parts/figure-words.tsx';
import { Scroll } from '../../parts/scroll.tsx';

/** The comparison in figures, choice beside choice. */
export function Figures({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="figures">
			<Scroll what="the comparison in figures">
				<table>
					<caption>The comparison in figures</caption>
					<thead>
						<tr>
							<td />
							<ChoiceHeads areMarked />
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
									<ChoiceCells of={(choice) => <FigureWords figure={figures[choice]} />} />
								</tr>
							))}
						</tbody>
					))}
				</table>
			</Scroll>
		</section>
	);
}
