/** A moment in the reader's own time, in the language of the page: "27 Nov 2026, 23:16:03". */
export const momentWords = (milliseconds: number): string =>
	new Date(milliseconds).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'medium' });
