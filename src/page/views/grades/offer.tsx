import { type AskedGroup, askedGroups, groupWords } from '../../../../shared/grades/resistor-groups.ts';
import type { GradesModel } from '../../model/grades/grades.ts';
import { Form } from '../../parts/form.tsx';
import { CountField, TypedField } from '../../parts/text-field.tsx';

/** What is asked about: which resistors, which grades, at what price. */
export function Offer({ grades }: { grades: GradesModel }) {
	const { group, question } = grades;
	return (
		<Form class="offer controls" label="Grades to compare" onSubmit={question.ask}>
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
			<TypedField
				id="grade-list"
				label="Grades, such as 1 %, 1 % E24, array 1 %/0.1 %"
				typed={grades.gradesTyped}
				problem={grades.gradesProblem.value}
				inputMode="text"
			/>
			<CountField
				id="grade-units"
				label="Drives in each run"
				typed={grades.unitsTyped}
				understood={grades.units.value}
			/>
			<TypedField
				id="grade-prices"
				label="Price of one resistor in each, if known"
				typed={grades.pricesTyped}
				problem={grades.pricesProblem.value}
				inputMode="text"
			/>
		</Form>
	);
}
