import { askFar } from '../../ask-far.ts';
import { groupTitles, inputSections } from '../../model/inputs/sections.ts';
import { createRange, type RangeModel, rangeParameters } from '../../model/limits/range.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Chart } from '../../parts/chart.tsx';
import { Form } from '../../parts/form.tsx';
import { InFull } from '../../parts/in-full.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { CountField } from '../../parts/text-field.tsx';
import { Opening } from '../long-question/opening.tsx';
import { AxisFields } from './axis-fields.tsx';
import { PointField } from './point-field.tsx';
import { VariantTable } from './variant-table.tsx';

/** How far it works along one parameter. */
export function RangePart({ model }: { model: PageModel }) {
	const range = model.part('range', () => createRange(model, askFar('range')));
	const { name } = range.record.value;
	const answer = range.answer.value;
	return (
		<>
			<Opening
				answer={answer}
				waiting={`The same drives are run at every ${name} …`}
				question={range.question}
				cost={range.cost.value}
			/>
			<RangeForm model={model} range={range} />
			{answer && (
				<div class="limits-panel">
					<KeyedSection hasGhost={answer.hasGhost} id="range-title" title={`Along ${name}`}>
						<Chart
							caption={'Error: 1 drive in 20 beyond, with its 95\u00a0% interval; thin: the median drive'}
							saveAs="range-errors"
							picture={answer.pictures.errors}
						/>
						<Chart
							caption="Drives that pass, with one-sided limits; filled: the requirement holds"
							saveAs="range-passing"
							picture={answer.pictures.passing}
						/>
						<p class="aside">
							Small marks were looked at in search of the slowest speed. × at the upper edge: 1 drive in 20 loses lock.
						</p>
						<InFull words={answer.inFull} />
						<VariantTable
							what={`figures by ${name}`}
							head={name}
							isHourly
							rows={answer.rows.map(({ value, isSearched, choices }) => ({
								key: value,
								name: isSearched ? `› ${value}` : value,
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

function RangeForm({ model, range }: { model: PageModel; range: RangeModel }) {
	const { record, entry, load, question } = range;
	return (
		<Form class="asked controls" label="What to range over" onSubmit={question.ask}>
			<div class="field">
				<label for="range-parameter">Parameter</label>
				<select id="range-parameter" onChange={(event) => range.setParameter(event.currentTarget.value)}>
					{inputSections.map(({ id, title, groups }) => (
						<optgroup key={id} label={title}>
							{rangeParameters
								.filter(({ group }) => groups.includes(group))
								.map((one) => (
									<option key={one.id} value={one.id} selected={one === record.value}>
										{[one.group !== 'operation' && groupTitles[one.group], one.name].filter(Boolean).join(': ')}
									</option>
								))}
						</optgroup>
					))}
				</select>
			</div>
			<AxisFields entry={entry} id="range" name={record.value.name} />
			<PointField
				model={model}
				id="range-point"
				label="At"
				value={range.point.value}
				mayBeAll={!range.isOfOnePoint.value}
				onChoose={range.setPoint}
			/>
			{record.value.id === 'operation.speed' && (
				<div class="field">
					<label for="range-load">Torque over speed</label>
					<select
						id="range-load"
						onChange={(event) => {
							load.value = event.currentTarget.value === 'constant' ? 'constant' : 'square';
						}}
					>
						<option value="square" selected={load.value === 'square'}>
							as its square
						</option>
						<option value="constant" selected={load.value === 'constant'}>
							constant
						</option>
					</select>
				</div>
			)}
			<CountField
				id="range-units"
				label="Drives at each value"
				typed={range.unitsTyped}
				understood={range.units.value}
			/>
			{range.leftOut.value && <p class="aside left-out">{range.leftOut.value}</p>}
		</Form>
	);
}
