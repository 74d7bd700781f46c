import { Fragment } from 'preact';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { RateCells } from '../../model/figure-rows.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceMark } from '../../parts/choice-mark.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

/** How often a crossing is taken early, late or not at all. */
export function Rates({ answer }: { answer: WhichChoiceAnswer }) {
	return (
		<section class="rates" aria-labelledby="rates-title">
			<h3 id="rates-title">How often a crossing is false or missed</h3>
			<div>
				<Chart
					caption={`Counted and computed, with ${answer.level} intervals`}
					saveAs="crossing-rates"
					picture={answer.pictures.rates}
				/>
				<p class="aside">
					{answer.pictures.openMarks}
					{answer.hasGhost && ' Grey: the baseline.'}
				</p>
			</div>
			<WideTable what="rates of false and missed crossings">
				<thead>
					<tr>
						<td />
						<th scope="col">seen</th>
						<th scope="col">per sector</th>
						<th scope="col">{answer.level} interval</th>
						<th scope="col">an hour</th>
					</tr>
				</thead>
				{answer.rates.map(({ event, rows }) => (
					<tbody key={event}>
						<tr class="group">
							<th colSpan={5} scope="rowgroup">
								{event}
							</th>
						</tr>
						{rows.map(({ choice, counted, computed }) => (
							<Fragment key={choice}>
								<tr>
									<th scope="row">
										<ChoiceMark choice={choice} />
										{choiceWords[choice]}
									</th>
									<Cells of={counted} />
								</tr>
								{computed && (
									<tr class="computed">
										<th scope="row">computed</th>
										<Cells of={computed} />
									</tr>
								)}
							</Fragment>
						))}
					</tbody>
				))}
			</WideTable>
		</section>
	);
}

const Cells = ({ of: { seen, rate, interval, hourly } }: { of: RateCells }) => (
	<>
		<td>{seen}</td>
		<td>{rate}</td>
		<td>{interval}</td>
		<td>{hourly}</td>
	</>
);
