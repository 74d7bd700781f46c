import type { Notebook } from './model/fields.ts';

/** A place in this browser's local storage. */
const browserNotebook = (place: string): Notebook => ({
	read: () => localStorage.getItem(place),
	write: (text) => localStorage.setItem(place, text),
});

/** What the page was asked last. */
export const sessionNotebook = browserNotebook('anglespread session');
/** What stood in the views' own fields. */
export const fieldsNotebook = browserNotebook('anglespread fields');
