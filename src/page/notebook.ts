import type { Notebook } from './model/kept/session.ts';

const place = 'anglespread session';

/** What the page was asked last, in this browser's local storage. */
export const browserNotebook: Notebook = {
	read: () => localStorage.getItem(place),
	write: (text) => localStorage.setItem(place, text),
};
