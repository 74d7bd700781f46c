import type { Signal } from '@preact/signals';
import { inputProblem, type Understood } from '../model/study-inputs.ts';

interface TextFieldProps {
	readonly id: string;
	readonly label: string;
	readonly value: string;
	readonly problem: string;
	readonly inputMode: 'numeric' | 'text';
	readonly onInput: (typed: string) => void;
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

interface TypedFieldProps extends Omit<TextFieldProps, 'value' | 'onInput'> {
	/** Takes what is typed as it is. */
	readonly typed: Signal<string>;
}

/** The same for a text that the model keeps as it is typed. */
export const TypedField = ({ typed, ...field }: TypedFieldProps) => (
	<TextField
		{...field}
		value={typed.value}
		onInput={(text) => {
			typed.value = text;
		}}
	/>
);

interface CountFieldProps extends Pick<TypedFieldProps, 'id' | 'label' | 'typed'> {
	readonly understood: Understood<number>;
}

/** The same for a number of drives, or of what else is counted. */
export const CountField = ({ understood, ...field }: CountFieldProps) => (
	<TypedField {...field} problem={inputProblem(understood)} inputMode="numeric" />
);
