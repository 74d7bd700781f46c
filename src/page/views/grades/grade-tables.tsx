import type { GradesModel } from '../../model/grades/grades.ts';
import { ChoiceGroup } from '../../parts/choice-cells.tsx';
import { ChoiceMark } from '../../parts/choice-mark.tsx';
import { FigureWords } from '../../parts/figure-words.tsx';
import { Scroll } from '../../parts/scroll.tsx';

type Answer = NonNullable<GradesModel['answer']['value']>;

/** Every grade in figures, choice by choice, and the cheapest mix where prices were given. */
export function GradeTables({ answer: { choices, isPriced } }: { answer: Answer }) {
	return (
		<section class="grade-tables" aria-labelledby="grade-tables-title">
			<h3 id="grade-tables-title">The grades in figures</h3>
			<Scroll what="each grade, choice by choice">
				<table>
					<thead>
						<tr>
							<th scope="col">Grade</th>
							<th scope="col">verdict</th>
							<th scope="col">pass</th>
							<th scope="col">median drive</th>
							<th scope="col">1 in 20 beyond</th>
							<th scope="col">gone wrong an hour</th>
							{isPriced && <th scope="col">price</th>}
						</tr>
					</thead>
					{choices
						.filter(({ rows }) => rows.length > 0)
						.map(({ choice, rows }) => (
							<tbody key={choice}>
								<ChoiceGroup choice={choice} span={isPriced ? 7 : 6} />
								{rows.map((row) => (
									<tr key={row.name}>
										<th scope="row">{row.name}</th>
										<td class={row.decision === 'holds' ? 'verdict holds' : 'verdict'}>{row.verdict}</td>
										<td>
											<FigureWords figure={row.pass} />
										</td>
										<td>
											<FigureWords figure={row.median} />
										</td>
										<td>
											<FigureWords figure={row.oneInTwenty} />
										</td>
										<td>
											<FigureWords figure={row.hourly} />
										</td>
										{isPriced && <td>{row.price}</td>}
									</tr>
								))}
							</tbody>
						))}
				</table>
			</Scroll>
			<p class="aside">
				Below a passing share its two exact limits, each with the confidence it was judged with; below an error its
				interval. Gone wrong: early, late and missed crossings together, computed, mean over drives.
			</p>
			{choices.map(
				({ choice, mixes }) =>
					mixes && (
						<div key={choice} class="mixes">
							<p>{mixes.sentence}</p>
							<table>
								<caption>
									<ChoiceMark choice={choice} />
									{mixes.counted}
								</caption>
								<thead>
									<tr>
										<th scope="col">Mix</th>
										<th scope="col">pass in the search</th>
										<th scope="col">on fresh drives</th>
									</tr>
								</thead>
								<tbody>
									{mixes.rows.map(({ mix, pass, fresh }) => (
										<tr key={mix}>
											<th scope="row">{mix}</th>
											<td>{pass}</td>
											<td>{fresh}</td>
										</tr>
									))}
								</tbody>
							</table>
						</div>
					),
			)}
		</section>
	);
}
