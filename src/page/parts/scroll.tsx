import type { ComponentChildren } from 'preact';

/** Something wide or long that scrolls inside, by keyboard too. */
export function Scroll({ what, children }: { what: string; children: ComponentChildren }) {
	return (
		// biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable by keyboard
		<section class="scroll" tabIndex={0} aria-label={what}>
			{children}
		</section>
	);
}
