import { choiceNames } from '../../../../shared/drive/drive.ts';
import { troubleOf } from '../../../../shared/one-drive/what-went-wrong.ts';
import { count, degrees } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { Was } from '../../parts/figure-words.tsx';
import { Form } from '../../parts/form.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

const shortcomingWords = {
	lock: 'loses lock',
	torque: 'torque not reached',
	angle: 'angle beyond limit',
	rate: 'too many wrong crossings an hour',
} as const;

const troubleWords = {
	lost: 'loses lock',
	torque: 'torque not reached',
	false: 'false crossings',
	angle: 'angle beyond limit',
	rate: 'too many wrong an hour',
	none: 'in order',
} as const;

/** Which drive: by the list of the worst, by its index, at which point and start. */
export function DrivePicker({ drive }: { drive: OneDrive }) {
	return (
		<section class="drive-picker" aria-labelledby="picker-title">
			<h3 id="picker-title">Which drive</h3>
			<Worst drive={drive} />
			<Index drive={drive} />
		</section>
	);
}

function Worst({ drive }: { drive: OneDrive }) {
	const { worst, worstOf, picked } = drive;
	return (
		<div class="worst">
			<fieldset class="switch">
				<legend>Worst with</legend>
				{choiceNames.map((choice) => (
					<label key={choice}>
						<input
							type="radio"
							name="worst-of"
							checked={worstOf.value === choice}
							onChange={() => drive.rank(choice)}
						/>
						<span>{choiceWords[choice]}</span>
					</label>
				))}
			</fieldset>
			<ol>
				{worst.value.map(({ unit, error, shortcoming }) => (
					<li key={unit}>
						<button
							type="button"
							aria-pressed={picked.value?.unit === unit}
							onClick={() => drive.pick({ unit, start: null })}
						>
							<span class="unit">{count(unit)}</span>
							<span class="error">{Number.isFinite(error) ? degrees(error) : 'lost'}</span>
							<span class="why">{shortcoming ? shortcomingWords[shortcoming] : 'passes'}</span>
						</button>
					</li>
				))}
			</ol>
			<p class="aside">By the 95&nbsp;% quantile of each drive's |angle error| over its starts at this point.</p>
		</div>
	);
}

function Index({ drive }: { drive: OneDrive }) {
	const { points, picked, unitTyped, unitProblem } = drive;
	return (
		<div class="by-index">
			<Form class="unit-index" onSubmit={() => drive.takeTyped()}>
				<div class="field">
					<label for="unit-index">Drive by its index</label>
					<div class="typed">
						<input
							id="unit-index"
							type="text"
							inputMode="numeric"
							autocomplete="off"
							value={unitTyped.value}
							aria-invalid={unitProblem.value !== ''}
							aria-describedby="unit-index-problem"
							onInput={(event) => drive.typeUnit(event.currentTarget.value)}
						/>
						<button type="submit">Look</button>
					</div>
					<p id="unit-index-problem" class="problem">
						{unitProblem.value}
					</p>
				</div>
			</Form>
			<div class="field">
				<label for="drive-point">Operating point</label>
				<select
					id="drive-point"
					onChange={(event) => drive.pick({ point: event.currentTarget.selectedIndex, start: null })}
				>
					{points.value.map(({ name }, index) => (
						<option key={name} selected={index === picked.value?.point}>
							{name}
						</option>
					))}
				</select>
			</div>
			<Starts drive={drive} />
		</div>
	);
}

/** How each start of the drive at this point went. */
function Starts({ drive }: { drive: OneDrive }) {
	const { picked, starts, start, requirement } = drive;
	const outcomes = drive.outcomes.value;
	const which = picked.value;
	if (outcomes.state === 'failed') return <p class="problem">Its starts could not be simulated: {outcomes.message}</p>;
	if (!which || !outcomes.value || !requirement.value) return <p class="aside">Simulating its starts …</p>;
	const limits = requirement.value;
	return (
		<WideTable what="how each start went" class="starts">
			<caption>{drive.startsOf.value}</caption>
			<thead>
				<tr>
					<th scope="col">Start</th>
					<ChoiceHeads />
				</tr>
			</thead>
			<tbody>
				{outcomes.value.slice(which.point * starts.value, (which.point + 1) * starts.value).map((pair, index) => (
					<tr key={index} class={index === start.value ? 'current' : undefined}>
						<th scope="row">
							<button type="button" aria-pressed={index === start.value} onClick={() => drive.pick({ start: index })}>
								{index + 1}
							</button>
						</th>
						{'failure' in pair ? (
							<td colSpan={2}>{pair.failure}</td>
						) : (
							<ChoiceCells
								of={(choice) => (
									<>
										{degrees(pair[choice].judgedError)}
										<small>{troubleWords[troubleOf(pair[choice], limits)]}</small>
										<Was words={drive.before.wasFrom(index, choice, pair[choice].judgedError)} />
									</>
								)}
							/>
						)}
					</tr>
				))}
			</tbody>
		</WideTable>
	);
}
