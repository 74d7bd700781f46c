import type { BuiltPage } from './open-built-page.ts';

/** Milliseconds, counted from the start of the navigation. */
export interface FirstAnswer {
	readonly loaded: number;
	readonly answer: number;
}

/** When the first sentence with figures is painted, for a visitor with nothing kept. */
export async function firstAnswer({ visitor, address }: BuiltPage): Promise<FirstAnswer> {
	const page = await visitor();
	await page.addInitScript(() => {
		const watcher = new MutationObserver(() => {
			if (!document.querySelector('.lead')) return;
			watcher.disconnect();
			// painted with the next frame
			requestAnimationFrame(() => setTimeout(() => Object.assign(globalThis, { answeredAt: performance.now() })));
		});
		watcher.observe(document, { childList: true, subtree: true });
	});
	await page.goto(address);
	await page.waitForFunction(() => 'answeredAt' in globalThis);
	const found = await page.evaluate(() => ({
		loaded: (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming).loadEventEnd,
		answer: (globalThis as unknown as { answeredAt: number }).answeredAt,
	}));
	await page.context().close();
	return found;
}
