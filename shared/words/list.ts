/** "a", "a and b", "a, b and c"; '' of nothing. */
export const list = (parts: readonly string[]): string =>
	parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
