import '../../style/long-question.css';
import '../../style/grades.css';
import { askFar } from '../../ask-far.ts';
import { createGrades } from '../../model/grades/grades.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { RestsOn } from '../../parts/rests-on.tsx';
import { Opening } from '../long-question/opening.tsx';
import { EffectsTable } from './effects-table.tsx';
import { GradeTables } from './grade-tables.tsx';
import { Offer } from './offer.tsx';

/** What grade of the sensing resistors is enough: the answer, each grade against the limits, the figures. */
export function GradesView({ model }: { model: PageModel }) {
	const grades = model.part('grades', () => createGrades(model, askFar('grades')));
	const answer = grades.answer.value;
	return (
		<>
			<Opening
				heading="What grade is enough?"
				answer={answer}
				waiting="Each grade is tried on the same drives …"
				question={grades.question}
				cost={grades.cost.value}
			/>
			<Offer grades={grades} />
			{answer && (
				<div class="grades-panel">
					<section class="answer">
						{answer.choices.flatMap(({ sentences }) =>
							sentences.map((words) => (
								<p key={words} class="rest">
									{words}
								</p>
							)),
						)}
						<p class="rest">{answer.requirement}</p>
					</section>
					{answer.pictures && (
						<KeyedSection
							hasGhost={answer.hasGhost}
							class="grade-pictures"
							id="grade-pictures-title"
							title="Each grade against the limits"
						>
							<Chart
								caption="Error: 1 drive in 20 beyond (filled), median drive (open)"
								saveAs="grades-errors"
								picture={answer.pictures.errors}
							/>
							<Chart
								caption="Drives that do not pass, with exact limits"
								saveAs="grades-shortfalls"
								picture={answer.pictures.shortfalls}
							/>
							<p class="aside">An open mark in the second picture: none failed; it stands at the upper limit.</p>
						</KeyedSection>
					)}
					<GradeTables answer={answer} />
					<div>
						<EffectsTable answer={answer} />
						<Behind what="purchasable nominal values">
							<table>
								<thead>
									<tr>
										<th scope="col">Grade</th>
										<th scope="col">Series</th>
										<th scope="col" class="nominals">
											Nearest values to the designed ones
										</th>
									</tr>
								</thead>
								<tbody>
									{answer.nominals.map(({ name, series, words }) => (
										<tr key={name}>
											<th scope="row">{name}</th>
											<td>{series}</td>
											<td class="nominals">{words}</td>
										</tr>
									))}
								</tbody>
							</table>
						</Behind>
					</div>
					<RestsOn rows={answer.rests} />
				</div>
			)}
		</>
	);
}
