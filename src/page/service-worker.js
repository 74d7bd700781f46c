// Keeps the built page for use without a network. The build puts `version` and `files` in front of this file.
/* global version, files */

const cacheName = `anglespread ${version}`;
/** How long a page in the cache waits for a newer one from the network, ms. */
const patience = 3000;

self.addEventListener('install', (event) => {
	event.waitUntil(
		caches.open(cacheName).then((cache) => cache.addAll(files.map((file) => new Request(file, { cache: 'reload' })))),
	);
});

self.addEventListener('activate', (event) => {
	// pages of an older version are gone by now: a new worker waits for them
	event.waitUntil(
		caches
			.keys()
			.then((names) =>
				Promise.all(
					names
						.filter((name) => name.startsWith('anglespread ') && name !== cacheName)
						.map((name) => caches.delete(name)),
				),
			)
			.then(() => self.clients.claim()),
	);
});

self.addEventListener('fetch', (event) => {
	const { request } = event;
	if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
	event.respondWith(request.mode === 'navigate' ? page(request) : file(request));
});

/** The page itself: the newest there is, the kept one where the network gives none in time. */
async function page(request) {
	const kept = await caches.match('./index.html', { cacheName });
	const limit = new Promise((resolve) => setTimeout(resolve, patience, kept));
	try {
		const fetched = fetch(request);
		return (await (kept ? Promise.race([fetched, limit]) : fetched)) ?? (await fetched);
	} catch (error) {
		if (kept) return kept;
		throw error;
	}
}

/** Everything else is named by its contents: what is kept is right. */
async function file(request) {
	return (await caches.match(request, { cacheName, ignoreSearch: true })) ?? fetch(request);
}
