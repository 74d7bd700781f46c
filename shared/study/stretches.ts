/** A range of a row of studies, each of `length` indices, cut where one study ends and the next begins. `before`: how much of the range comes earlier. */
export function stretches(
	length: number,
	from: number,
	to: number,
): readonly { readonly place: number; readonly first: number; readonly end: number; readonly before: number }[] {
	const found = [];
	for (let index = from; index < to; ) {
		const place = Math.floor(index / length);
		const end = Math.min(to, (place + 1) * length);
		found.push({ place, first: index - place * length, end: end - place * length, before: index - from });
		index = end;
	}
	return found;
}
