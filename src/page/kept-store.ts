import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { KeptStore } from './model/kept/kept-store.ts';

interface Schema extends DBSchema {
	results: { key: string; value: { readonly id: string } };
	/** An entry for each of `places`, and one for each longer question's answers. */
	session: { key: string; value: unknown };
}

const places = { last: 'last', baseline: 'baseline' } as const;
const answersOf = (question: string): string => `answers ${question}`;

/**
 * Results in this browser's IndexedDB; they leave it for nowhere. It is opened for each piece of work and closed after
 * it: no connection is left behind, and a newer version of the page in another tab need not wait for this one.
 */
export function keptStore(name = 'anglespread'): KeptStore {
	const withDatabase = async <T>(work: (database: IDBPDatabase<Schema>) => Promise<T>): Promise<T> => {
		const database = await openDB<Schema>(name, 1, {
			upgrade(created) {
				created.createObjectStore('results', { keyPath: 'id' });
				created.createObjectStore('session');
			},
		});
		try {
			return await work(database);
		} finally {
			database.close();
		}
	};
	return {
		all: () => withDatabase((database) => database.getAll('results')),
		put: (record) => withDatabase(async (database) => void (await database.put('results', record))),
		remove: (id) => withDatabase((database) => database.delete('results', id)),
		last: () => withDatabase((database) => database.get('session', places.last)),
		setLast: (last) => withDatabase(async (database) => void (await database.put('session', last, places.last))),
		baseline: () => withDatabase((database) => database.get('session', places.baseline)),
		setBaseline: (pinned) =>
			withDatabase(async (database) => {
				if (pinned) await database.put('session', pinned, places.baseline);
				else await database.delete('session', places.baseline);
			}),
		answers: (question) => withDatabase((database) => database.get('session', answersOf(question))),
		changeAnswers: (question, change) =>
			withDatabase(async (database) => {
				const { store, done } = database.transaction('session', 'readwrite');
				const changed = change(await store.get(answersOf(question)));
				await Promise.all([store.put(changed, answersOf(question)), done]);
			}),
	};
}
