import { type AskedGroup, askedGroups, groupWords } from '../../../../shared/grades/resistor-groups.ts';
import type { GradesModel } from '../../model/grades/grades.ts';
import { inputProblem } from '../../model/study-inputs.ts';
import { TextField } from '../../parts/text-field.tsx';

/** What is asked about: which resistors, which grades, at what price. */
export function Offer({ grades }: { grades: GradesModel }) {
	const { group, gradesTyped, pricesTyped, unitsTyped, question } = grades;
	return (
		<form
			class="offer controls"
			aria-label="Grades to compare"
			noValidate
			onSubmit={(event) => {
				event.preventDefault();
				void question.ask();
			}}
		>
			<div class="field">
				<label for="grade-group">Resistors</label>
				<select
					id="grade-group"
					onChange={(event) => {
						group.value = event.currentTarget.value as AskedGroup;
					}}
				>
					{askedGroups.map((one) => (
						<option key={one} value={one} selected={one === group.value}>
							{one === 'all' ? `all ${groupWords[one]}` : groupWords[one]}
						</option>
					))}
				</select>
			</div>
			<TextField
				id="grade-list"
				label="Grades, such as 1 %, 1 % E24, array 1 %/0.1 %"
				value={gradesTyped.value}
				problem={grades.gradesProblem.value}
				inputMode="text"
				onInput={(typed) => {
					gradesTyped.value = typed;
				}}
			/>
			<TextField
				id="grade-prices"
				label="Price of one resistor in each, if known"
				value={pricesTyped.value}
				problem={grades.pricesProblem.value}
				inputMode="text"
				onInput={(typed) => {
					pricesTyped.value = typed;
				}}
			/>
			<TextField
				id="grade-units"
				label="Drives in each run"
				value={unitsTyped.value}
				problem={inputProblem(grades.units.value)}
				inputMode="numeric"
				onInput={(typed) => {
					unitsTyped.value = typed;
				}}
			/>
		</form>
	);
}
