import { type DBSchema, openDB } from 'idb';
import type { KeptStore } from './model/kept/kept-store.ts';

interface Schema extends DBSchema {
	results: { key: string; value: { readonly id: string } };
	/** An entry for each of `places`. */
	session: { key: string; value: unknown };
}

const places = { last: 'last', baseline: 'baseline' } as const;

/** Results in this browser's IndexedDB; they leave it for nowhere. */
export function keptStore(name = 'anglespread'): KeptStore {
	// a browser may throw here at once
	const database = (async () =>
		openDB<Schema>(name, 1, {
			upgrade(created) {
				created.createObjectStore('results', { keyPath: 'id' });
				created.createObjectStore('session');
			},
			// a newer version of the page in another tab must not wait for this one
			blocking: (_current, _next, event) => (event.target as IDBDatabase).close(),
		}))();
	database.catch(() => {}); // whoever asks is told
	return {
		all: async () => (await database).getAll('results'),
		put: async (record) => void (await (await database).put('results', record)),
		remove: async (id) => (await database).delete('results', id),
		last: async () => (await database).get('session', places.last),
		setLast: async (last) => void (await (await database).put('session', last, places.last)),
		baseline: async () => (await database).get('session', places.baseline),
		async setBaseline(pinned) {
			const open = await database;
			if (pinned) await open.put('session', pinned, places.baseline);
			else await open.delete('session', places.baseline);
		},
	};
}
