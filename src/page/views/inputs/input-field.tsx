import { useEffect, useState } from 'preact/hooks';
import { partHelp } from '../../model/inputs/part-help.ts';
import type { InputField, InputRow } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';
import { problemId } from './problem-id.ts';

/** A field: as typed while one types in it, in engineering notation otherwise. */
export function InputFieldView({ row, field, model }: { row: InputRow; field: InputField; model: PageModel }) {
	const { inputs } = model;
	const [typed, setTyped] = useState<string | null>(null);
	const restored = inputs.restored.value;
	useEffect(() => setTyped(null), [restored]);
	const common = {
		'aria-label': field.label,
		'aria-invalid': field.problem !== '',
		'aria-describedby': field.problem ? problemId(field.key) : undefined,
		// to the inspector's buttons, which parts have
		'aria-keyshortcuts': row.record.role === 'part' ? 'F2' : undefined,
	};
	const classes = `${field.field}${field.isStated ? '' : ' by-default'}`;

	if (field.options) {
		return (
			<select
				class={classes}
				{...common}
				data-field={field.key}
				onChange={(event) => inputs.type(row, field.field, event.currentTarget.value)}
			>
				{(field.options.includes(field.text) ? field.options : [field.text, ...field.options]).map((option) => (
					<option key={option} value={option} selected={option === field.text}>
						{option}
					</option>
				))}
			</select>
		);
	}
	return (
		<input
			class={classes}
			{...common}
			type="text"
			autocomplete="off"
			spellcheck={false}
			data-field={field.key}
			value={typed ?? field.text}
			placeholder={field.placeholder}
			onInput={(event) => {
				setTyped(event.currentTarget.value);
				inputs.type(row, field.field, event.currentTarget.value);
			}}
			onBlur={() => setTyped(null)}
			onKeyDown={(event) => {
				if (event.key === 'Enter') setTyped(null);
				if (field.field !== 'value' || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
				const help = partHelp(row);
				if (!help) return;
				event.preventDefault();
				inputs.set(row, 'value', event.key === 'ArrowUp' ? help.higher : help.lower);
			}}
		/>
	);
}
