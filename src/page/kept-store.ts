import { type DBSchema, openDB } from 'idb';
import type { KeptStore } from './model/kept/kept-store.ts';

interface Schema extends DBSchema {
	results: { key: string; value: { readonly id: string } };
	/** One entry under `lastKey`. */
	session: { key: string; value: unknown };
}

const lastKey = 'last';

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
		last: async () => (await database).get('session', lastKey),
		setLast: async (last) => void (await (await database).put('session', last, lastKey)),
	};
}
