/** The known name that was probably meant: the nearest by edits, if near enough to be worth suggesting. */
export function nearestName(written: string, known: Iterable<string>): string | undefined {
	const limit = Math.max(1, Math.floor(written.length / 3));
	let nearest: string | undefined;
	let fewest = limit + 1;
	for (const name of known) {
		if (Math.abs(name.length - written.length) > limit) continue;
		const edits = editDistance(written.toLowerCase(), name.toLowerCase());
		if (edits < fewest) [nearest, fewest] = [name, edits];
	}
	return nearest;
}

/** Words for an unknown name: with the nearest known one, else with all when they are few. */
export function unknownName(written: string, known: readonly string[], elsewhere: readonly string[] = []): string {
	const meant = nearestName(written, known) ?? elsewhere.find((id) => id.endsWith(`.${written}`));
	if (meant !== undefined) return `is not a known name here; did you mean ${meant}?`;
	return known.length <= 12 ? `is not a known name here; known are ${known.join(', ')}` : 'is not a known name here';
}

/** Insertions, deletions and replacements that make one text of the other (Levenshtein 1966). */
export function editDistance(a: string, b: string): number {
	let row = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		for (let j = 1; j <= b.length; j++) {
			const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
			next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
		}
		row = next;
	}
	return row[b.length] ?? 0;
}
