import { askFar } from '../../ask-far.ts';
import { createEnvelope } from '../../model/limits/envelope.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Chart } from '../../parts/chart.tsx';
import { Form } from '../../parts/form.tsx';
import { InFull } from '../../parts/in-full.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { CountField } from '../../parts/text-field.tsx';
import { Opening } from '../long-question/opening.tsx';
import { VariantTable } from './variant-table.tsx';

/** Whether it still works where all stated limits come together. */
export function EnvelopePart({ model }: { model: PageModel }) {
	const envelope = model.part('envelope', () => createEnvelope(model, askFar('envelope')));
	const { question } = envelope;
	const answer = envelope.answer.value;
	return (
		<>
			<Opening
				answer={answer}
				waiting="Every combination of the limits of the conditions is run on the same drives …"
				question={question}
				cost={envelope.cost.value}
			/>
			<Form class="asked controls" label="Combinations of limits" onSubmit={question.ask}>
				<CountField
					id="envelope-units"
					label="Drives at each combination"
					typed={envelope.unitsTyped}
					understood={envelope.units.value}
				/>
			</Form>
			{answer && (
				<div class="limits-panel">
					<KeyedSection hasGhost={answer.hasGhost} id="envelope-title" title="The worst combinations of limits">
						<Chart
							caption="Drives that fail, with one-sided limits"
							saveAs="envelope-shares"
							picture={answer.picture}
						/>
						<p class="aside">{answer.signs} An open mark on a dotted line: none failed.</p>
						<InFull words={answer.inFull} />
						<VariantTable
							what="the worst combinations"
							head="Limits"
							rows={answer.rows.map(({ signs, conditions, choices }) => ({
								key: signs,
								name: (
									<>
										{signs}
										<small>{conditions}</small>
									</>
								),
								choices,
							}))}
						/>
					</KeyedSection>
					<RestsOn rows={answer.rests.rows}>
						<FailedDrives failures={answer.rests.failures} />
					</RestsOn>
				</div>
			)}
		</>
	);
}
