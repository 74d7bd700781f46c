import '../../style/long-question.css';
import '../../style/origins.css';
import { askFar } from '../../ask-far.ts';
import { createOrigins } from '../../model/origins/origins.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Chart } from '../../parts/chart.tsx';
import { Form } from '../../parts/form.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { CountField } from '../../parts/text-field.tsx';
import { Opening } from '../long-question/opening.tsx';
import { PointPanel } from '../which-choice/point-panel.tsx';
import { PointTabs } from '../which-choice/point-tabs.tsx';
import { Budgets } from './budgets.tsx';
import { ShareTables } from './share-tables.tsx';

/** What drives the spread: the answer, the shares of either choice, and the classical budgets beside them. */
export function OriginsView({ model }: { model: PageModel }) {
	const origins = model.part('origins', () => createOrigins(model, askFar('spread')));
	const { question } = origins;
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
			<PointPanel model={model} class="origins-panel">
				<Form class="origins-rows controls" label="Design" onSubmit={question.ask}>
					<CountField
						id="origin-rows"
						label="Rows of the design; more narrow the intervals"
						typed={origins.rowsTyped}
						understood={origins.rows.value}
					/>
				</Form>
				{answer && (
					<>
						<p class="rest">{answer.sentence}</p>
						{answer.picture && (
							<KeyedSection
								hasGhost={answer.hasGhost}
								class="origins-picture"
								id="origins-picture-title"
								title="Where it comes from"
							>
								<Chart
									caption="Filled: what an origin makes alone. Open: what would stay if only it varied"
									saveAs="spread-origins"
									picture={answer.picture}
								/>
							</KeyedSection>
						)}
						<ShareTables choices={answer.choices} />
						<Budgets answer={answer} />
						<RestsOn rows={answer.rests}>
							<FailedDrives failures={answer.failures} />
						</RestsOn>
					</>
				)}
			</PointPanel>
		</>
	);
}
