import type { GradesModel } from '../../model/grades/grades.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';
import { ChoiceTable } from '../../parts/choice-table.tsx';
import { FigureWords } from '../../parts/figure-words.tsx';

type Answer = NonNullable<GradesModel['answer']['value']>;

/** Every grade in figures, choice by choice, and the cheapest mix where prices were given. */
export function GradeTables({ answer: { choices, isPriced } }: { answer: Answer }) {
	return (
		<section class="grade-tables" aria-labelledby="grade-tables-title">
			<h3 id="grade-tables-title">The grades in figures</h3>
			<ChoiceTable
				head="Grade"
				columns={[
					'verdict',
					'pass',
					'median drive',
					'1 in 20 beyond',
					'gone wrong an hour',
					...(isPriced ? ['price'] : []),
				]}
				choices={choices
					.filter(({ rows }) => rows.length > 0)
					.map(({ choice, rows }) => ({
						choice,
						rows: rows.map((row) => ({
							key: row.name,
							name: row.name,
							cells: [
								row.verdict && (
									<span class={row.decision === 'holds' ? 'verdict holds' : 'verdict'}>{row.verdict}</span>
								),
								...[row.pass, row.median, row.oneInTwenty, row.hourly].map((figure) => <FigureWords figure={figure} />),
								...(isPriced ? [row.price] : []),
							],
						})),
					}))}
			/>
			<p class="aside">
				With a passing share its two exact limits, each with the confidence it was judged with; with an error its
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
