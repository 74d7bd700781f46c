import '../../style/long-question.css';
import '../../style/origins.css';
import { askFar } from '../../ask-far.ts';
import { createOrigins } from '../../model/origins/origins.ts';
import type { PageModel } from '../../model/page-model.ts';
import { inputProblem } from '../../model/study-inputs.ts';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceKey } from '../../parts/choice-mark.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { Opening } from '../long-question/opening.tsx';
import { PointTabs } from '../which-choice/point-tabs.tsx';
import { Budgets } from './budgets.tsx';
import { ShareTables } from './share-tables.tsx';

/** What drives the spread: the answer, the shares of either choice, and the classical budgets beside them. */
export function OriginsView({ model }: { model: PageModel }) {
	const origins = model.part('origins', () => createOrigins(model, askFar('spread')));
	const { question, rowsTyped } = origins;
	const answer = origins.answer.value;
	return (
		<>
			<Opening
				heading="What drives the spread?"
				answer={answer}
				waiting="Every origin is drawn anew on its own, then all but that one …"
				question={question}
				cost={origins.cost.value}
			/>
			<PointTabs model={model} />
			<div
				class="origins-panel"
				role="tabpanel"
				id="point-panel"
				aria-labelledby={`point-${model.whichChoice.pointIndex.value}`}
			>
				<form
					class="origins-rows controls"
					aria-label="Design"
					noValidate
					onSubmit={(event) => {
						event.preventDefault();
						void question.ask();
					}}
				>
					<TextField
						id="origin-rows"
						label="Rows of the design; more narrow the intervals"
						value={rowsTyped.value}
						problem={inputProblem(origins.rows.value)}
						inputMode="numeric"
						onInput={(typed) => {
							rowsTyped.value = typed;
						}}
					/>
				</form>
				{answer && (
					<>
						<p class="rest">{answer.sentence}</p>
						{answer.picture && (
							<section class="origins-picture" aria-labelledby="origins-picture-title">
								<header>
									<h3 id="origins-picture-title">Where it comes from</h3>
									<ChoiceKey />
								</header>
								<Chart
									caption="Filled: what an origin makes alone. Open: what would stay if only it varied"
									saveAs="spread-origins"
									picture={answer.picture}
								/>
							</section>
						)}
						<ShareTables choices={answer.choices} />
						<Budgets answer={answer} />
						<RestsOn rows={answer.rests}>
							<FailedDrives failures={answer.failures} />
						</RestsOn>
					</>
				)}
			</div>
		</>
	);
}
