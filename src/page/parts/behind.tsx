import type { ComponentChildren } from 'preact';
import { Scroll } from './scroll.tsx';

/** The table behind a picture, folded away until wanted. Long ones scroll inside, by keyboard too. */
export function Behind({ what, children }: { what: string; children: ComponentChildren }) {
	return (
		<details class="behind">
			<summary>Table: {what}</summary>
			<Scroll what={what}>{children}</Scroll>
		</details>
	);
}
