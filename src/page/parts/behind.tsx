import type { ComponentChildren } from 'preact';

/** The table behind a picture, folded away until wanted. Long ones scroll inside, by keyboard too. */
export function Behind({ what, children }: { what: string; children: ComponentChildren }) {
	return (
		<details class="behind">
			<summary>Table: {what}</summary>
			{/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable by keyboard */}
			<section class="scroll" tabIndex={0} aria-label={what}>
				{children}
			</section>
		</details>
	);
}
