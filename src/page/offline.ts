import type { ReadonlySignal } from '@preact/signals';

/** Milliseconds after which the page is kept even where there are no figures. */
const patience = 5000;

/**
 * Has the browser keep the page, so that it works without a network from then on.
 *
 * @param shown the figures on show: fetching and compiling every file would hold up the first ones
 */
export async function keepForOffline(shown: ReadonlySignal<unknown>): Promise<void> {
	if (!('serviceWorker' in navigator)) return;
	await new Promise<void>((resolve) => {
		setTimeout(resolve, patience);
		shown.subscribe((figures) => {
			if (figures) resolve();
		});
	});
	// without it the page works all the same, with a network
	await navigator.serviceWorker.register('./service-worker.js').catch(() => {});
}
