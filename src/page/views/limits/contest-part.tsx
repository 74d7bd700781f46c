import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { askFar } from '../../ask-far.ts';
import { type ContestModel, createContest } from '../../model/limits/contest.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceCells } from '../../parts/choice-cells.tsx';
import { Form } from '../../parts/form.tsx';
import { InFull } from '../../parts/in-full.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { CountField } from '../../parts/text-field.tsx';
import { Opening } from '../long-question/opening.tsx';
import { AxisFields } from './axis-fields.tsx';
import { ContestMap } from './contest-map.tsx';
import { PointField } from './point-field.tsx';

/** Which choice is better at every speed and torque. */
export function ContestPart({ model }: { model: PageModel }) {
	const contest = model.part('contest', () => createContest(model, askFar('contest')));
	const answer = contest.answer.value;
	return (
		<>
			<Opening
				answer={answer}
				waiting="Drives are sent to every speed and torque …"
				question={contest.question}
				cost={contest.cost.value}
			/>
			<ContestForm model={model} contest={contest} />
			{answer && (
				<div class="limits-panel">
					<ContestMap contest={contest} answer={answer} />
					<InFull words={answer.inFull} />
					<ContestTable rows={answer.rows} />
					<RestsOn rows={answer.rests.rows}>
						<FailedDrives failures={answer.rests.failures} />
					</RestsOn>
				</div>
			)}
		</>
	);
}

function ContestForm({ model, contest }: { model: PageModel; contest: ContestModel }) {
	const { speed, torque, question } = contest;
	return (
		<Form class="asked controls" label="Speeds and torques" onSubmit={question.ask}>
			<AxisFields entry={speed} id="contest-speed" name="speed" />
			<AxisFields entry={torque} id="contest-torque" name="load torque" />
			<PointField
				model={model}
				id="contest-point"
				label="Other conditions as at"
				value={contest.point.value}
				mayBeAll={false}
				onChoose={(index) => contest.setPoint(index ?? 0)}
			/>
			<CountField
				id="contest-units"
				label="Drives at a cell, at most"
				typed={contest.unitsTyped}
				understood={contest.units.value}
			/>
		</Form>
	);
}

function ContestTable({ rows }: Pick<NonNullable<ContestModel['answer']['value']>, 'rows'>) {
	return (
		<Behind what="every speed and torque in words">
			<table class="contest-table">
				<thead>
					<tr>
						<th scope="col">Speed</th>
						<th scope="col" class="words">
							better
						</th>
						<th scope="col">by</th>
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								pass, {choiceWords[choice]}
							</th>
						))}
					</tr>
				</thead>
				{rows.map((cells) => (
					<tbody key={cells[0]?.key}>
						<tr class="group">
							<th colSpan={5} scope="rowgroup">
								{cells[0]?.torque}
							</th>
						</tr>
						{cells.map(({ key, speed, better, by, pass }) => (
							<tr key={key}>
								<th scope="row">{speed}</th>
								<td class="words">{better}</td>
								<td>{by}</td>
								<ChoiceCells of={(choice) => pass[choice]} />
							</tr>
						))}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
