import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';

/** Mean error of each sector kind: rising against falling crossings. */
export function Sectors({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="sectors" aria-labelledby="sectors-title">
			<h3 id="sectors-title">Rising against falling crossings</h3>
			<Chart
				caption="Mean error of the six sectors, all drives"
				saveAs="sector-means"
				picture={answer.pictures.sectors}
			/>
			{answer.hasGhost && <p class="aside">Grey: the baseline.</p>}
			<Behind what="means by sector">
				<table>
					<thead>
						<tr>
							<th scope="col">Open phase</th>
							<ChoiceHeads />
						</tr>
					</thead>
					<tbody>
						{answer.sectors.map(({ sector, figures }) => (
							<tr key={sector}>
								<th scope="row">{sector}</th>
								<ChoiceCells of={(choice) => figures[choice]} />
							</tr>
						))}
					</tbody>
				</table>
			</Behind>
		</section>
	);
}
