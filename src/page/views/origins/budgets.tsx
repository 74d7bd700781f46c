import { choiceWords } from '../../../../shared/words/names.ts';
import type { OriginsModel } from '../../model/origins/origins.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceTable } from '../../parts/choice-table.tsx';

type Answer = NonNullable<OriginsModel['answer']['value']>;

/** The classical budgets of the same figure beside what drawn drives do, and why they differ. */
export function Budgets({ answer: { budgets, choices, point } }: { answer: Answer }) {
	if (!budgets) return null;
	const worst = choices.flatMap(({ choice, budgets: own }) =>
		own?.worstSector ? [`${choiceWords[choice]} ${own.worstSector}`] : [],
	);
	return (
		<section class="budgets" aria-labelledby="budgets-title">
			<h3 id="budgets-title">The classical budgets at {point}</h3>
			<p class="rest">{budgets.sentence}</p>
			<p class="reservation">
				The extreme value is no drive that anyone will build: it puts every part at its worse limit at once.{' '}
				{budgets.why}
			</p>
			{budgets.picture && (
				<Chart
					caption={`Change of the mean error in the sector that moves furthest: ${worst.join('; ')}. Dotted: classical`}
					saveAs="budgets"
					picture={budgets.picture}
				/>
			)}
			<ChoiceTable
				head="Change against the middle drive"
				columns={['extreme, summed', 'extreme, that drive run', 'root-sum-square', '95\u00a0% of drawn drives']}
				choices={choices.flatMap(({ choice, budgets: own }) =>
					own
						? {
								choice,
								rows: own.sectors.map(({ sector, isWorst, cells }) => ({
									key: sector,
									name: (
										<>
											{sector}
											{isWorst && <small>moves furthest</small>}
										</>
									),
									class: isWorst ? 'worst-sector' : undefined,
									cells: cells ? [cells.summed, cells.run, cells.rootSumSquare, cells.drawn] : 'no budget',
								})),
							}
						: [],
				)}
			/>
			{choices.map(
				({ choice, budgets: own }) =>
					own && (
						<div key={choice}>
							{own.notes.map((note) => (
								<p key={note} class="reservation">
									{choiceWords[choice]}: {note}
								</p>
							))}
							{own.sources.length > 0 && (
								<Behind what={`most for ${own.worstSector} with ${choiceWords[choice]}, each part alone at its limits`}>
									<table>
										<thead>
											<tr>
												<th scope="col">Part</th>
												<th scope="col">lower limit</th>
												<th scope="col">upper limit</th>
											</tr>
										</thead>
										<tbody>
											{own.sources.map(({ name, low, high }) => (
												<tr key={name}>
													<th scope="row">{name}</th>
													<td>{low}</td>
													<td>{high}</td>
												</tr>
											))}
										</tbody>
									</table>
								</Behind>
							)}
						</div>
					),
			)}
		</section>
	);
}
