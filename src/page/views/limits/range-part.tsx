import { useEffect } from 'preact/hooks';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { askFar } from '../../ask-far.ts';
import { groupTitles, inputSections } from '../../model/inputs/sections.ts';
import { createRange, type RangeModel, rangeParameters } from '../../model/limits/range.ts';
import type { PageModel } from '../../model/page-model.ts';
import { inputProblem } from '../../model/study-inputs.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceKey, ChoiceMark } from '../../parts/choice-mark.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { AskBar } from '../long-question/ask-bar.tsx';
import { Answer } from './answer.tsx';
import { AxisFields } from './axis-fields.tsx';
import { PointField } from './point-field.tsx';

/** How far it works along one parameter. */
export function RangePart({ model }: { model: PageModel }) {
	const range = model.part('range', () => createRange(model, askFar('range')));
	const { question } = range;
	useEffect(() => {
		question.setOpen(true);
		return () => question.setOpen(false);
	}, []);
	const answer = range.answer.value;
	return (
		<>
			<Answer answer={answer} waiting={`The same drives are run at every ${range.record.value.name} …`}>
				<AskBar question={question} cost={range.cost.value} />
			</Answer>
			<RangeForm model={model} range={range} />
			{answer && (
				<div class="limits-panel">
					<section aria-labelledby="range-title">
						<header>
							<h3 id="range-title">Along {range.record.value.name}</h3>
							<ChoiceKey />
						</header>
						<Chart
							caption="Error: 1 drive in 20 beyond, with its 95 % interval; thin: the median drive"
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
							{answer.hasGhost && ' Grey: the baseline.'}
						</p>
						<RangeTable rows={answer.rows} name={range.record.value.name} />
					</section>
					<RestsOn rows={answer.rests.rows}>
						<FailedDrives failures={answer.rests.failures} />
					</RestsOn>
				</div>
			)}
		</>
	);
}

function RangeForm({ model, range }: { model: PageModel; range: RangeModel }) {
	const { record, entry, load, unitsTyped, question } = range;
	return (
		<form
			class="asked controls"
			aria-label="What to range over"
			noValidate
			onSubmit={(event) => {
				event.preventDefault();
				void question.ask();
			}}
		>
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
			<TextField
				id="range-units"
				label="Drives at each value"
				value={unitsTyped.value}
				problem={inputProblem(range.units.value)}
				inputMode="numeric"
				onInput={(typed) => {
					unitsTyped.value = typed;
				}}
			/>
			{range.leftOut.value && <p class="aside left-out">{range.leftOut.value}</p>}
		</form>
	);
}

function RangeTable({ rows, name }: { rows: NonNullable<RangeModel['answer']['value']>['rows']; name: string }) {
	return (
		<Behind what={`figures by ${name}`}>
			<table class="limits-table">
				<thead>
					<tr>
						<th scope="col">{name}</th>
						<th scope="col">pass</th>
						<th scope="col">limits, one-sided</th>
						<th scope="col">verdict</th>
						<th scope="col">median drive</th>
						<th scope="col">1 in 20 beyond</th>
						<th scope="col">wrong an hour, computed</th>
					</tr>
				</thead>
				{choiceNames.map((choice, place) => (
					<tbody key={choice}>
						<tr class="group">
							<th colSpan={7} scope="rowgroup">
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</th>
						</tr>
						{rows.map(({ value, isSearched, choices }) => {
							const cells = choices[place];
							return (
								<tr key={value}>
									<th scope="row">
										{isSearched && '› '}
										{value}
									</th>
									<td>{cells?.share}</td>
									<td>
										{cells?.low} … {cells?.high}
									</td>
									<td class={`verdict ${cells?.decision}`}>{cells?.decision}</td>
									<td>{cells?.median}</td>
									<td>{cells?.worse}</td>
									<td>{cells?.computed}</td>
								</tr>
							);
						})}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
