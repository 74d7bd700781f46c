/** Has the page kept by the browser once it is loaded, so that it works without a network from then on. */
export function keepForOffline(): void {
	if (!('serviceWorker' in navigator)) return;
	// without it the page works all the same, with a network
	const keep = (): void => void navigator.serviceWorker.register('./service-worker.js').catch(() => {});
	if (document.readyState === 'complete') keep();
	else addEventListener('load', keep, { once: true });
}
