interface TextFieldProps {
	id: string;
	label: string;
	value: string;
	problem: string;
	inputMode: 'numeric' | 'text';
	onInput: (typed: string) => void;
}

/** A line of text to be typed, with what is wrong with it beneath. */
export function TextField({ id, label, value, problem, inputMode, onInput }: TextFieldProps) {
	return (
		<div class="field">
			<label for={id}>{label}</label>
			<input
				id={id}
				type="text"
				inputMode={inputMode}
				autocomplete="off"
				spellcheck={false}
				value={value}
				aria-invalid={problem !== ''}
				aria-describedby={`${id}-problem`}
				onInput={(event) => onInput(event.currentTarget.value)}
			/>
			<p id={`${id}-problem`} class="problem">
				{problem}
			</p>
		</div>
	);
}
