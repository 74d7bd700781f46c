import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { Scroll } from './scroll.tsx';

/** The table behind a picture, folded away until wanted, and not made before. Long ones scroll inside, by keyboard too. */
export function Behind({ what, children }: { what: string; children: ComponentChildren }) {
	const [isOpen, setOpen] = useState(false);
	return (
		<details class="behind" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
			{/* biome-ignore lint/a11y/noStaticElementInteractions: a summary is interactive; the table is made with the click, before it unfolds */}
			<summary
				onClick={(event) => {
					event.preventDefault();
					setOpen(!isOpen);
				}}
			>
				Table: {what}
			</summary>
			<Scroll what={what}>{isOpen && children}</Scroll>
		</details>
	);
}
