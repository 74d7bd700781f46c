/** The first sentence, which carries the answer, and those that qualify it. */
export function sentences(text: string): { readonly lead: string; readonly rest: string } {
	const end = text.search(/(?<=[.!?]) (?=\p{Lu})/u);
	return end < 0 ? { lead: text, rest: '' } : { lead: text.slice(0, end), rest: text.slice(end + 1) };
}
