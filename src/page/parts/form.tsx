import type { ComponentChildren } from 'preact';

interface FormProps {
	readonly class: string;
	/** What it is called by those who do not see it, unless a heading does so. */
	readonly label?: string;
	readonly labelledBy?: string;
	readonly onSubmit: () => unknown;
	/** What Esc does, in a form that is opened and closed. */
	readonly onEscape?: () => void;
	readonly children: ComponentChildren;
}

/** Fields that are sent nowhere: what is wrong with one stands beside it, and the model is told when the reader is done. */
export function Form({ class: name, label, labelledBy, onSubmit, onEscape, children }: FormProps) {
	return (
		<form
			class={name}
			aria-label={label}
			aria-labelledby={labelledBy}
			noValidate
			onSubmit={(event) => {
				event.preventDefault();
				void onSubmit();
			}}
			onKeyDown={({ key }) => {
				if (key === 'Escape') onEscape?.();
			}}
		>
			{children}
		</form>
	);
}
