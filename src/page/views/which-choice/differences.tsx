import { sizeWords, smallerIn } from '../../../../shared/charts/paired-differences.ts';
import { count, percent } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';

/** How the two choices differ drive by drive: same parts, same moments, same noise. */
export function Differences({ answer: { pictures, level, hasGhost } }: { answer: WhichChoiceAnswer }) {
	const { differences } = pictures;
	if (!differences) return null;
	return (
		<KeyedSection
			class="differences"
			id="differences-title"
			title="How the two differ, drive by drive"
			hasGhost={hasGhost}
		>
			<Chart
				caption={`Drives in the colour of the choice that errs less; above, the median and its ${level} interval`}
				saveAs="paired-differences"
				picture={differences}
			/>
			{differences.leftOut && <p class="aside">{differences.leftOut}</p>}
			<Behind what="drives by difference">
				<table>
					<thead>
						<tr>
							<th scope="col">Smaller error with</th>
							<th scope="col">by</th>
							<th scope="col">drives</th>
							<th scope="col">share</th>
						</tr>
					</thead>
					<tbody>
						{differences.bins.bins
							.filter((bin) => bin.count > 0)
							.map((bin) => (
								<tr key={bin.from}>
									<th scope="row">{choiceWords[smallerIn(bin)]}</th>
									<td>{sizeWords(bin)}</td>
									<td>{count(bin.count)}</td>
									<td>{percent(bin.share)}</td>
								</tr>
							))}
					</tbody>
				</table>
			</Behind>
		</KeyedSection>
	);
}
