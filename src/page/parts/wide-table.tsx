import type { ComponentChildren } from 'preact';
import { Scroll } from './scroll.tsx';

interface WideTableProps {
	/** What is in it, for those who hear where they scroll. */
	readonly what: string;
	readonly class?: string;
	readonly children: ComponentChildren;
}

/** A table that scrolls in its own place where it has no room. */
export const WideTable = ({ what, class: kind, children }: WideTableProps) => (
	<Scroll what={what}>
		<table class={kind}>{children}</table>
	</Scroll>
);
