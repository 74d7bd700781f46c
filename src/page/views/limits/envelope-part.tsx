import { useEffect } from 'preact/hooks';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { askFar } from '../../ask-far.ts';
import { createEnvelope, type EnvelopeModel } from '../../model/limits/envelope.ts';
import type { PageModel } from '../../model/page-model.ts';
import { inputProblem } from '../../model/study-inputs.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceKey, ChoiceMark } from '../../parts/choice-mark.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { AskBar } from '../long-question/ask-bar.tsx';
import { Answer } from './answer.tsx';

/** Whether it still works where all stated limits come together. */
export function EnvelopePart({ model }: { model: PageModel }) {
	const envelope = model.part('envelope', () => createEnvelope(model, askFar('envelope')));
	const { question, unitsTyped } = envelope;
	useEffect(() => {
		question.setOpen(true);
		return () => question.setOpen(false);
	}, []);
	const answer = envelope.answer.value;
	return (
		<>
			<Answer answer={answer} waiting="Every combination of the stated limits is run on the same drives …">
				<AskBar question={question} cost={envelope.cost.value} />
			</Answer>
			<form
				class="asked controls"
				aria-label="Combinations of limits"
				noValidate
				onSubmit={(event) => {
					event.preventDefault();
					void question.ask();
				}}
			>
				<TextField
					id="envelope-units"
					label="Drives at each combination"
					value={unitsTyped.value}
					problem={inputProblem(envelope.units.value)}
					inputMode="numeric"
					onInput={(typed) => {
						unitsTyped.value = typed;
					}}
				/>
			</form>
			{answer && (
				<div class="limits-panel">
					<section aria-labelledby="envelope-title">
						<header>
							<h3 id="envelope-title">The worst combinations of limits</h3>
							<ChoiceKey />
						</header>
						<Chart
							caption="Drives that fail, with one-sided limits"
							saveAs="envelope-shares"
							picture={answer.picture}
						/>
						<p class="aside">
							{answer.signs} An open mark on a dotted line: none failed.
							{answer.hasGhost && ' Grey: the baseline.'}
						</p>
						<EnvelopeTable rows={answer.rows} />
					</section>
					<RestsOn rows={answer.rests.rows}>
						<FailedDrives failures={answer.rests.failures} />
					</RestsOn>
				</div>
			)}
		</>
	);
}

function EnvelopeTable({ rows }: Pick<NonNullable<EnvelopeModel['answer']['value']>, 'rows'>) {
	return (
		<Behind what="the worst combinations">
			<table class="limits-table">
				<thead>
					<tr>
						<th scope="col">Limits</th>
						<th scope="col">pass</th>
						<th scope="col">limits, one-sided</th>
						<th scope="col">verdict</th>
						<th scope="col">median drive</th>
						<th scope="col">1 in 20 beyond</th>
					</tr>
				</thead>
				{choiceNames.map((choice, place) => (
					<tbody key={choice}>
						<tr class="group">
							<th colSpan={6} scope="rowgroup">
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</th>
						</tr>
						{rows.map(({ signs, conditions, choices }) => {
							const cells = choices[place];
							return (
								<tr key={signs}>
									<th scope="row">
										{signs}
										<small>{conditions}</small>
									</th>
									<td>{cells?.share}</td>
									<td>
										{cells?.low} … {cells?.high}
									</td>
									<td class={`verdict ${cells?.decision}`}>{cells?.decision}</td>
									<td>{cells?.median}</td>
									<td>{cells?.worse}</td>
								</tr>
							);
						})}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
