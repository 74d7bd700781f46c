/** Levels of nesting; what is deeper is not ours. */
const deepest = 40;

/**
 * A value as JSON with tabs, lists of plain values on one line. Infinite numbers
 * are written 1e999 and −1e999, which JSON's grammar allows and readers of 64-bit
 * numbers take for infinity; NaN, which it has no word for, is null. One value
 * gives one text, also after it has been read and written again.
 */
export function jsonText(value: unknown, depth = 0): string {
	if (typeof value === 'number') return numberText(value);
	if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
	if (depth > deepest) throw new RangeError(`more than ${deepest} levels of nesting`);
	const [open, close] = Array.isArray(value) ? '[]' : '{}';
	const items = Array.isArray(value)
		? value.map((member) => jsonText(member, depth + 1))
		: Object.entries(value)
				.filter(([, member]) => member !== undefined)
				.map(([name, member]) => `${JSON.stringify(name)}: ${jsonText(member, depth + 1)}`);
	if (items.length === 0) return `${open}${close}`;
	if (Array.isArray(value) && !value.some(isCompound)) return `[${items.join(', ')}]`;
	const margin = `\n${'\t'.repeat(depth)}`;
	return `${open}${margin}\t${items.join(`,${margin}\t`)}${margin}${close}`;
}

function numberText(value: number): string {
	if (Number.isNaN(value)) return 'null';
	if (!Number.isFinite(value)) return value > 0 ? '1e999' : '-1e999';
	// JSON.stringify takes the sign off a zero, which a figure keeps
	return Object.is(value, -0) ? '-0' : String(value);
}

const isCompound = (value: unknown): boolean => typeof value === 'object' && value !== null;
