import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceKey } from '../../parts/choice-mark.tsx';

/** Both error distributions overlaid, as counts and cumulative, over one angle axis. */
export function Errors({ answer: { pictures, bins, worst } }: { answer: WhichChoiceAnswer }) {
	if (!pictures.counts || !pictures.cumulative) {
		return (
			<section class="errors">
				<h3>How far off commutations are</h3>
				<p>No commutation was measured at this operating point.</p>
			</section>
		);
	}
	return (
		<section class="errors" aria-labelledby="errors-title">
			<header>
				<h3 id="errors-title">How far off commutations are</h3>
				<ChoiceKey />
			</header>
			<Chart caption="Counted" saveAs="errors-counted" picture={pictures.counts} />
			<Chart caption="Cumulative" saveAs="errors-cumulative" picture={pictures.cumulative} />
			{pictures.outside && <p class="aside">{pictures.outside}</p>}
			{worst.length > 0 && (
				<p class="aside worst-links">
					The worst here:{' '}
					{worst.map(({ choice, words, link }, i) => (
						<span key={choice}>
							{i > 0 && ', '}
							{choiceWords[choice]} <a href={link}>{words}</a>
						</span>
					))}
				</p>
			)}
			<Behind what="errors by bin">
				<table>
					<thead>
						<tr>
							<th scope="col">Error</th>
							{choiceNames.map((choice) => (
								<th key={choice} scope="col" colSpan={2}>
									{choiceWords[choice]}
								</th>
							))}
						</tr>
					</thead>
					<tbody>
						{bins.map(({ range, cells }) => (
							<tr key={range}>
								<th scope="row">{range}</th>
								{cells.map(({ choice, counted, cumulative }) => [
									<td key={choice}>{counted}</td>,
									<td key={`${choice} cumulative`}>{cumulative}</td>,
								])}
							</tr>
						))}
					</tbody>
				</table>
			</Behind>
		</section>
	);
}
