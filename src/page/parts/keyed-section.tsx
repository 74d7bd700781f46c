import type { ComponentChildren } from 'preact';
import { ChoiceKey } from './choice-mark.tsx';

interface KeyedSectionProps {
	readonly class?: string;
	/** Of its heading. */
	readonly id: string;
	readonly title: string;
	/** Whether a baseline is drawn in grey. */
	readonly hasGhost?: boolean;
	readonly children: ComponentChildren;
}

/** Pictures under a heading, with the key to which mark is which choice. */
export const KeyedSection = ({ class: name, id, title, hasGhost, children }: KeyedSectionProps) => (
	<section class={name} aria-labelledby={id}>
		<header>
			<h3 id={id}>{title}</h3>
			<ChoiceKey hasGhost={hasGhost === true} />
		</header>
		{children}
	</section>
);
