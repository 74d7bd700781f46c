import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** Something wide or long that scrolls inside, by keyboard too while there is anything to scroll. */
export function Scroll({ what, children }: { what: string; children: ComponentChildren }) {
	const place = useRef<HTMLElement>(null);
	const [isLarger, setLarger] = useState(false);
	useEffect(() => {
		const element = place.current;
		if (!element?.firstElementChild) return;
		const watcher = new ResizeObserver(() =>
			setLarger(element.scrollHeight > element.clientHeight || element.scrollWidth > element.clientWidth),
		);
		for (const one of [element, element.firstElementChild]) watcher.observe(one);
		return () => watcher.disconnect();
	}, []);
	return (
		<section ref={place} class="scroll" tabIndex={isLarger ? 0 : undefined} aria-label={what}>
			<div>{children}</div>
		</section>
	);
}
