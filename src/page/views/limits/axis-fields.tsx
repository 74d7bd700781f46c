import type { AxisEntry } from '../../model/limits/axis-entry.ts';
import { TextField } from '../../parts/text-field.tsx';

interface AxisFieldsProps {
	readonly entry: AxisEntry;
	/** Of the fields; must be unlike any other's. */
	readonly id: string;
	/** What it is an axis of. */
	readonly name: string;
}

/** The ends of an axis and how many values it takes, with what is wrong with them beneath. */
export function AxisFields({ entry, id, name }: AxisFieldsProps) {
	const written = entry.written.value;
	const problem = entry.problem.value;
	if (!written) return null;
	const field = (part: 'from' | 'to' | 'steps', label: string) => (
		<TextField
			id={`${id}-${part}`}
			label={label}
			value={written[part]}
			problem={part === 'from' && problem ? `${name} ${problem}` : ''}
			inputMode="text"
			onInput={(typed) => entry.type({ [part]: typed })}
		/>
	);
	return (
		<fieldset class="axis-fields">
			<legend>{name}</legend>
			{field('from', 'from')}
			{field('to', 'to')}
			{field('steps', 'values')}
			<label class="tick">
				<input
					type="checkbox"
					checked={written.isLogarithmic}
					onChange={(event) => entry.type({ isLogarithmic: event.currentTarget.checked })}
				/>
				<span>in equal ratios</span>
			</label>
		</fieldset>
	);
}
