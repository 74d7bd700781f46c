/** Has the built page kept by the browser once it is loaded, so that it works without a network from then on. */
export function keepForOffline(): void {
	if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
	// after the first figures' rush; without it the page works all the same, with a network
	addEventListener('load', () => void navigator.serviceWorker.register('./service-worker.js').catch(() => {}));
}
