/**
 * A button that is pressed by key and thereby goes, or can be pressed no more, would leave its user nowhere on the page.
 * The focus goes on to the first thing beside it that takes the focus, or to the part of the page that it was in: what
 * may be focused but is no stop of the Tab key is such a part.
 */
export function keepFocus(): void {
	/** What has the focus by keyboard, then all that it lies in. */
	let path: readonly Element[] = [];
	const follow = (next: readonly Element[]): void => {
		path = next;
		// pictures are drawn anew all the time: nobody listens where no focus can be lost
		if (path.length === 0) watcher.disconnect();
		else watcher.observe(document.body, { subtree: true, childList: true, attributeFilter: ['disabled'] });
	};
	const watcher = new MutationObserver(() => {
		const [lost, ...parents] = path;
		if (!lost || (lost.isConnected && !lost.matches(':disabled'))) return;
		follow([]);
		const now = document.activeElement;
		if (now === null || now === document.body || now === lost) placeFor(parents)?.focus();
	});
	addEventListener('focusin', ({ target }) => {
		follow(target instanceof Element && target.matches(':focus-visible') ? withParents(target) : []);
	});
	// who then points needs no such help
	addEventListener('pointerdown', () => follow([]));
}

function withParents(element: Element): readonly Element[] {
	const path: Element[] = [];
	for (let one: Element | null = element; one && one !== document.body; one = one.parentElement) path.push(one);
	return path;
}

const takesFocus = ['a[href]', 'button', 'input', 'select', 'textarea', 'summary', '[tabindex="0"]']
	.map((kind) => `${kind}:not(:disabled)`)
	.join();

/** @param parents from the nearest on */
function placeFor(parents: readonly Element[]): HTMLElement | null {
	for (const parent of parents.filter(({ isConnected }) => isConnected)) {
		if (parent instanceof HTMLElement && parent.tabIndex === -1 && parent.hasAttribute('tabindex')) return parent;
		const next = [...parent.querySelectorAll<HTMLElement>(takesFocus)].find((one) => one.getClientRects().length > 0);
		if (next) return next;
		if (parent instanceof HTMLElement && parent.matches('section, form, main')) {
			parent.tabIndex = -1;
			return parent;
		}
	}
	return null;
}
